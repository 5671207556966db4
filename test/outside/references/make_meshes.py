"""Independent reference values for reading meshes: writes meshes.json beside this file.
Run: python3 make_meshes.py (Python 3.11, numpy 2, scipy 1.17; a second; no other input).
Flat sheet, metres, x east, y north. Values are rounded to 32 bits before use. triangles: scipy.spatial.Delaunay of scattered points, in
shuffled order and with every third one reversed; atCorners: scipy.interpolate.LinearNDInterpolator over that Delaunay. onTriangles: the
value of the triangle that holds the point (Delaunay.find_simplex) plus the gradient that numpy.linalg.lstsq fits to the differences of
value between the centroids of its three neighbours (Delaunay.neighbors) and its own; the own value where one is wanting. quads: a grid
bent by sines; bilinear: the shares (s, t) in the quadrilateral that holds the point are found by scipy.optimize.root (hybr, xtol 1e-14)
on the mapping itself, every quadrilateral being tried, and the corners joined with them. Nothing here was made with the program under test.
"""
import json
from pathlib import Path
import numpy as np
from scipy.interpolate import LinearNDInterpolator
from scipy.optimize import root
from scipy.spatial import Delaunay

rng = np.random.default_rng(31)
def field(p): return (1.5 * np.sin(p[..., 0] / 9000) + np.cos(p[..., 1] / 7000 - p[..., 0] / 15000)).astype(np.float32).astype(float)
def rows(a): return [[float(v) for v in r] for r in a]

points = rng.uniform(-30000, 30000, (60, 2))
mesh = Delaunay(points)
corner_values = field(points)
centroids = points[mesh.simplices].mean(axis=1)
own_values = field(centroids)
asked = rng.uniform(-28000, 28000, (60, 2))
inside = mesh.find_simplex(asked) >= 0
asked = asked[inside]
linear = LinearNDInterpolator(mesh, corner_values)(asked)
fitted, sums = [], []
for p in asked:
    k = int(mesh.find_simplex(p))
    around = mesh.neighbors[k]
    if (around < 0).any():
        fitted.append(own_values[k]); sums.append(1.0)
        continue
    d = centroids[around] - centroids[k]
    slope = lambda values: np.linalg.lstsq(d, values, rcond=None)[0]
    fitted.append(own_values[k] + slope(own_values[around] - own_values[k]) @ (p - centroids[k]))
    worst = 0
    for c in points[mesh.simplices[k]]:
        w = np.array([slope(e) @ (c - centroids[k]) for e in np.eye(3)])
        worst = max(worst, abs(1 - w.sum()) + np.abs(w).sum())
    sums.append(worst)
order = rng.permutation(len(mesh.simplices))
triangles = [[int(c) for c in (mesh.simplices[t][::-1] if i % 3 == 0 else mesh.simplices[t])] for i, t in enumerate(order)]

ny, nx = 6, 8
j, i = np.mgrid[0:ny, 0:nx].astype(float)
u, v = (i - 3.5) * 6000, (j - 2.5) * 8000
quad = np.stack([0.8 * u - 0.5 * v + 1500 * np.sin(v / 9000), 0.6 * u + 0.9 * v + 1200 * np.cos(u / 8000)], axis=-1)
quad_values = field(quad)
asked_quads, bilinear = [], []
while len(asked_quads) < 40:
    p = rng.uniform(-20000, 20000, 2)
    for row in range(ny - 1):
        for column in range(nx - 1):
            a, b, c, d = quad[row, column], quad[row, column + 1], quad[row + 1, column + 1], quad[row + 1, column]
            at = lambda q: ((1 - q[0]) * (1 - q[1]) * a + q[0] * (1 - q[1]) * b + q[0] * q[1] * c + (1 - q[0]) * q[1] * d - p) / 6000
            found = root(at, [0.5, 0.5], tol=1e-14)
            s, t = found.x
            if np.abs(at(found.x)).max() < 1e-12 and 0.001 < s < 0.999 and 0.001 < t < 0.999:
                w = quad_values[row:row + 2, column:column + 2]
                asked_quads.append(p)
                bilinear.append(float((1 - s) * (1 - t) * w[0, 0] + s * (1 - t) * w[0, 1] + s * t * w[1, 1] + (1 - s) * t * w[1, 0]))
made = {
    "how": " ".join(__doc__.split()),
    "triangles": {"corners": rows(points), "cornerValues": corner_values.tolist(), "triangles": triangles,
                  "triangleValues": own_values[order].tolist(), "asked": rows(asked), "atCorners": linear.tolist(),
                  "onTriangles": [float(v) for v in fitted], "fitWeights": [float(v) for v in sums]},
    "quads": {"rows": ny, "columns": nx, "nodes": rows(quad.reshape(-1, 2)), "values": quad_values.ravel().tolist(),
              "asked": rows(asked_quads), "bilinear": bilinear},
}
lines = lambda part: "{\n" + ",\n".join(f'  {json.dumps(k)}: {json.dumps(v)}' for k, v in part.items()) + "\n }"
text = ",\n".join(f' {json.dumps(k)}: {lines(v) if isinstance(v, dict) else json.dumps(v)}' for k, v in made.items())
Path(__file__).with_name("meshes.json").write_text("{\n" + text + "\n}\n")
