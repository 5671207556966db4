"""Independent reference values for lying at anchor: writes anchoring.json beside this file.
Run: python3 make_anchoring.py (Python 3.11, numpy 2, scipy 1.17; seconds; no other input).
rodes: chain of a given diameter (0.023 kg/m for each square millimetre of wire, steel of 7850 in water of 1025 kg/m3, g 9.80665) at the
anchor, weightless rope above it, bow `heightM` above a level bottom, a steady horizontal pull. The cable is a chain of short links, each
hanging along the pull on it: dx/ds = H / T, dy/ds = V / T, dV/ds = weight, integrated with scipy's DOP853 (rtol = atol = 1e-12), and the
shape is found by brentq on the pull upward at the anchor, or, where rode is left lying, on the length that lies. neededM is the least
rode, of the chain there is and then rope, whose lead at the anchor is 8 degrees: brentq on the length.
fetches: a place at (0, 0) in a bay, and an islet off it, whose shores are straight edges (x east, y north, nm); rays at `from` and at 3, 6, 9 and 12 degrees to
either side, each to the nearest edge by the intersection of two lines, 20 nm where it meets none; the fetch is their plain mean.
swings: length + sqrt(rode^2 - height^2). Nothing here was made with the program under test.
"""
import json, math
from pathlib import Path
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

def weight(diameter_mm):
    return 0.023 * diameter_mm ** 2 * 9.80665 * (1 - 1025 / 7850)

def shape(chain_m, w, rope_m, pull, lift):
    """Out, up and the pull upward at the top of a cable that begins with `lift` newtons upward."""
    out = up = 0.0
    v = lift
    for length, per_metre in ((chain_m, w), (rope_m, 0.0)):
        if length <= 0: continue
        def link(s, r):
            t = math.hypot(pull, r[2])
            return [pull / t, r[2] / t, per_metre]
        end = solve_ivp(link, (0, length), [0, 0, v], method="DOP853", rtol=1e-12, atol=1e-12).y[:, -1]
        out, up, v = out + end[0], up + end[1], end[2]
    return out, up, v

def lead(chain_m, w, rope_m, height, pull):
    if shape(chain_m, w, rope_m, pull, 0)[1] >= height:
        lying = brentq(lambda m: shape(chain_m - m, w, rope_m, pull, 0)[1] - height, 0, chain_m, xtol=1e-12)
        out, _, v = shape(chain_m - lying, w, rope_m, pull, 0)
        return {"leadDeg": 0, "lyingM": lying, "reachM": out + lying, "bowN": math.hypot(pull, v)}
    lift = brentq(lambda n: shape(chain_m, w, rope_m, pull, n)[1] - height, 0, 1e7, xtol=1e-9)
    out, _, v = shape(chain_m, w, rope_m, pull, lift)
    return {"leadDeg": math.degrees(math.atan2(lift, pull)), "lyingM": 0, "reachM": out, "bowN": math.hypot(pull, v)}

RODES = [
    dict(diameterMm=10, chainM=35, ropeM=0, heightM=7.2, pullN=1334.5),
    dict(diameterMm=10, chainM=35, ropeM=0, heightM=7.2, pullN=5337.9),
    dict(diameterMm=8, chainM=20, ropeM=30, heightM=6.3, pullN=2000),
    dict(diameterMm=8, chainM=20, ropeM=30, heightM=12.5, pullN=400),
    dict(diameterMm=8, chainM=20, ropeM=30, heightM=12.5, pullN=8000),
    dict(diameterMm=12, chainM=60, ropeM=0, heightM=9, pullN=900),
    dict(diameterMm=10, chainM=8, ropeM=40, heightM=5.5, pullN=120),
    dict(diameterMm=10, chainM=10, ropeM=2, heightM=11.6, pullN=3000),
]

def needed(r):
    w = weight(r["diameterMm"])
    aboard = r["chainM"] + r["ropeM"]
    def over(m):
        chain = min(m, r["chainM"])
        return lead(chain, w, m - chain, r["heightM"], r["pullN"])["leadDeg"] - 8
    if over(aboard) > 0: return None
    return brentq(over, r["heightM"] + 0.05, aboard, xtol=1e-6)

SHORES = [[(-6, 1.5), (-1.2, 0.6), (0.4, 0.9), (0.9, 0.1), (0.5, -0.8), (5, -3), (25, -3), (25, 25), (-6, 25)], [(-9, -7), (-3, -6), (-6, -9)]]
EDGES = [(p, q) for ring in SHORES for p, q in zip(ring, ring[1:] + ring[:1])]

def ray(deg):
    ex, ny = math.sin(math.radians(deg)), math.cos(math.radians(deg))
    best = math.inf
    for (ax, ay), (bx, by) in EDGES:
        dx, dy = bx - ax, by - ay
        det = ex * -dy + dx * ny
        if abs(det) < 1e-15: continue
        along = (ax * -dy + dx * ay) / det
        share = (ex * ay - ny * ax) / det
        if along > 0 and 0 <= share <= 1: best = min(best, along)
    return best

def fetch(deg):
    rays = [ray(deg + 3 * k) for k in range(-4, 5)]
    return {"from": deg, "fetchNm": sum(min(r, 20) for r in rays) / 9, "open": any(r > 20 for r in rays)}

out = {
    "weights": [dict(diameterMm=d, newtonsPerM=weight(d)) for d in (6, 8, 10, 12)],
    "rodes": [{**r, **lead(r["chainM"], weight(r["diameterMm"]), r["ropeM"], r["heightM"], r["pullN"]), "neededM": needed(r)} for r in RODES],
    "shores": SHORES,
    "fetches": [fetch(d) for d in (0, 30, 60, 90, 120, 180, 210, 240, 270, 300, 330, 357)],
    "swings": [dict(rodeM=r, heightM=h, lengthM=l, swingM=l + math.sqrt(r * r - h * h)) for r, h, l in ((35, 7.2, 12), (35, 6.3, 12), (62, 9.1, 11.6))],
}
Path(__file__).with_name("anchoring.json").write_text(json.dumps(out, indent=1) + "\n")
