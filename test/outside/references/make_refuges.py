"""Independent reference values for running to ports of refuge: writes refuges.json beside this file.
Run: python3 make_refuges.py (Python 3.11, numpy 2, scipy 1.17; a minute or two; no other input).
Flat plane, x east, y north, nm, kn, h; headings in degrees clockwise from north. The way across starts at (0, 0) at time 0 and holds the
one heading that leads to `to` (the earliest of those within 85 degrees of the bearing, scanned every 0.5 degree, then brentq). From the
place on that way at each of `hours`, every one of `places` is run to by one heading found in the same manner; null where none leads
there. Runs are integrated with scipy's DOP853 (rtol = atol = 1e-12, step at most 0.25 h) up to the event of coming abeam of the place.
turnBackH is the time at which the one heading back to (0, 0) takes as long as what is left of the way (brentq on that difference,
1e-12). uniform: from (0, 0) in a stream that is the same everywhere the time to a place d solves |d - w T| = S T, and the heading is that
of d - w T; worked with fractions of double precision by the quadratic. Nothing here was made with the program under test.
"""
import json, math
from pathlib import Path
import numpy as np
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

FIELDS = {
    "gaussian": lambda f: lambda x, y, t: (0.0, f["peakKn"] * math.exp(-(((x - f["axisNm"]) / f["widthNm"]) ** 2))),
    "gaussianTide": lambda f: lambda x, y, t: (
        0.0, f["peakKn"] * math.sin(2 * math.pi * t / f["periodHours"]) * math.exp(-(((x - f["axisNm"]) / f["widthNm"]) ** 2))),
}

def run(flow, speed, p, t0, heading, bearing, length):
    hx, hy = speed * math.sin(math.radians(heading)), speed * math.cos(math.radians(heading))
    ax, ay = math.sin(bearing), math.cos(bearing)
    def motion(t, r):
        u, v = flow(r[0], r[1], t)
        return [hx + u, hy + v]
    def abeam(t, r): return (r[0] - p[0]) * ax + (r[1] - p[1]) * ay - length
    abeam.terminal, abeam.direction = True, 1
    s = solve_ivp(motion, (t0, t0 + 60), p, method="DOP853", rtol=1e-12, atol=1e-12, max_step=0.25, events=abeam, dense_output=True)
    if len(s.t_events[0]) == 0: return None
    r = s.y_events[0][0]
    return float(s.t_events[0][0]), float((r[0] - p[0]) * ay - (r[1] - p[1]) * ax), s.sol

def to_place(flow, speed, p, t0, place, coarse=0.5):
    dx, dy = place[0] - p[0], place[1] - p[1]
    bearing, length = math.atan2(dx, dy), math.hypot(dx, dy)
    if length < 1e-9: return t0, None
    miss = lambda h: (lambda got: None if got is None else got[1])(run(flow, speed, p, t0, h, bearing, length))
    best = None
    hs = [math.degrees(bearing) + d for d in np.arange(-85, 85 + coarse, coarse)]
    ms = [miss(h) for h in hs]
    for (a, b, ma, mb) in zip(hs, hs[1:], ms, ms[1:]):
        if ma is None or mb is None or (ma > 0) == (mb > 0): continue
        h = brentq(miss, a, b, xtol=1e-12)
        at = run(flow, speed, p, t0, h, bearing, length)[0]
        if best is None or at < best[0]: best = (at, h % 360)
    return best

def uniform(speed, w, d):
    a, b, c = w[0] ** 2 + w[1] ** 2 - speed ** 2, -2 * (d[0] * w[0] + d[1] * w[1]), d[0] ** 2 + d[1] ** 2
    roots = [r for r in np.roots([a, b, c]) if abs(r.imag) < 1e-12 and r.real > 0]
    if not roots: return None
    t = min(r.real for r in roots)
    return {"hours": t, "headingDeg": math.degrees(math.atan2(d[0] - w[0] * t, d[1] - w[1] * t)) % 360}

CASES = [
    {"id": "jet", "boatKn": 6, "to": [50, 0], "field": {"kind": "gaussian", "peakKn": 3, "axisNm": 25, "widthNm": 10},
     "hours": [1, 3, 5, 7], "places": [[0, 12], [3, -9], [50, 0], [47, 15], [52, -8], [24, 30], [0, 0], [45, -20]]},
    {"id": "tide", "boatKn": 5.5, "to": [40, 10], "field": {"kind": "gaussianTide", "peakKn": 2.5, "axisNm": 20, "widthNm": 12, "periodHours": 12.42},
     "hours": [1, 3, 5, 7], "places": [[0, 12], [5, -9], [40, 10], [37, -5], [20, 25], [0, 0]]},
]

out = {"uniform": [], "cases": []}
for speed, w in [(6, (0, 3)), (5, (-2, 1.5)), (4, (3, -3.5))]:
    for d in [(20, 5), (-12, 9), (3, -18), (-25, -4), (30, 30)]:
        out["uniform"].append({"boatKn": speed, "streamKn": w, "toNm": d, "answer": uniform(speed, w, d)})
for case in CASES:
    flow = FIELDS[case["field"]["kind"]](case["field"])
    arrival, heading = to_place(flow, case["boatKn"], [0.0, 0.0], 0.0, case["to"])
    bearing, length = math.atan2(*case["to"]), math.hypot(*case["to"])
    sol = run(flow, case["boatKn"], [0.0, 0.0], 0.0, heading, bearing, length)[2]
    place = lambda t: [float(v) for v in sol(t)]
    rows = []
    for h in case["hours"]:
        found = [to_place(flow, case["boatKn"], place(h), float(h), p) for p in case["places"]]
        rows.append({"atH": h, "placeNm": place(h), "runs": [None if f is None else {"arrivalH": f[0], "headingDeg": f[1]} for f in found]})
    late = lambda t: to_place(flow, case["boatKn"], place(t), t, [0.0, 0.0], 2.0)[0] - arrival
    turn = brentq(late, 0.3 * arrival, 0.7 * arrival, xtol=1e-9)
    out["cases"].append({**case, "arrivalH": arrival, "headingDeg": heading, "rows": rows,
                         "turnBackH": turn, "turnBackNm": place(turn)})
Path(__file__).with_name("refuges.json").write_text(json.dumps(out, indent=1) + "\n")
