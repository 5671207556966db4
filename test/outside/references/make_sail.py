"""Least times under sail, tacking and gybing free, apart from the program: numpy and scipy, printed as JSON.

    python3 test/outside/references/make_sail.py > test/outside/references/sail.json

The boat goes by her table, linear in angle and in wind speed, in the wind over the water. What she can make good is the convex hull of the curve.
Three methods, none of which searches a grid or relaxes a line:

"multiplier": water and wind go by x alone, x always grows. By the duality of convex problems the least time is the greatest over k of
    D(k) = k dy + integral over x of the least of (1 - k vy) / vx over all headings (quad, minimize_scalar).
"support": water and wind go by time alone. The places reached in time T are the sum of the hulls, so that T is the greatest over unit vectors n
    of the T for which the integral over time of max(n . v) is n . d (quad, brentq, minimize_scalar).
"direct": both. y at equal steps of x, steps timed by the current and wind in their middle, least sum by L-BFGS-B; extrapolated from K and 2 K steps.

Knots, nautical miles, hours; x east, y north; wind in degrees from.
"""
import json
import math
import sys

import numpy as np
from scipy.integrate import quad
from scipy.optimize import brentq, minimize, minimize_scalar
from scipy.spatial import ConvexHull

WINDS = [6, 10, 14, 20]
TABLE = {
    40: [3.4, 5.0, 5.8, 6.0],
    52: [4.2, 5.8, 6.5, 6.8],
    60: [4.5, 6.1, 6.8, 7.1],
    75: [4.8, 6.5, 7.1, 7.5],
    90: [4.8, 6.6, 7.3, 7.8],
    110: [4.6, 6.5, 7.4, 8.1],
    120: [4.4, 6.3, 7.3, 8.2],
    135: [3.7, 5.6, 6.8, 7.9],
    150: [3.0, 4.8, 6.2, 7.3],
    165: [2.5, 4.2, 5.6, 6.7],
    180: [2.3, 3.9, 5.2, 6.3],
}
ANGLES = np.array(sorted(TABLE), float)
SPEEDS = np.array([TABLE[a] for a in sorted(TABLE)])
STEP_DEG = 0.05
TURN = np.radians(np.arange(0, 360, STEP_DEG))
OFF_BOW = np.abs((np.degrees(TURN) + 180) % 360 - 180)
ROUND = 1e-9


def speeds(wind):
    """Speed at every angle of TURN off a wind of so many knots."""
    rows = np.array([np.interp(wind, WINDS, row) if wind >= WINDS[0] else row[0] * wind / WINDS[0] for row in SPEEDS])
    return np.where(OFF_BOW < ANGLES[0] - ROUND, 0.0, np.interp(OFF_BOW, ANGLES, rows))


def velocities(wind_kn, wind_from, u, v):
    """East and north over the ground on every heading."""
    ax = -wind_kn * math.sin(math.radians(wind_from)) - u
    ay = -wind_kn * math.cos(math.radians(wind_from)) - v
    toward = math.atan2(-ay, -ax)
    s = speeds(math.hypot(ax, ay))
    return u + s * np.cos(toward + TURN), v + s * np.sin(toward + TURN)


def by_multiplier(wind, flow, dx, dy):
    cuts = [dx * i / 12 for i in range(1, 12)]

    def least(x, k):
        w, f = wind(x, 0)
        vx, vy = velocities(w, f, *flow(x, 0))
        ok = vx > 0.02
        return np.min((1 - k * vy[ok]) / vx[ok])

    def dual(k):
        return k * dy + quad(least, 0, dx, args=(k,), epsabs=1e-7, epsrel=1e-7, limit=400, points=cuts)[0]

    ks = np.linspace(-0.12, 0.12, 25)
    k0 = ks[int(np.argmax([k * dy + np.mean([least(x, k) for x in np.linspace(0, dx, 40)]) * dx for k in ks]))]
    best = minimize_scalar(lambda k: -dual(k), bounds=(k0 - 0.012, k0 + 0.012), method="bounded", options={"xatol": 1e-7})
    return -best.fun


def by_support(wind, flow, dx, dy):
    def reach(t, nx, ny):
        w, f = wind(0, t)
        vx, vy = velocities(w, f, *flow(0, t))
        return np.max(nx * vx + ny * vy)

    def hours(angle):
        nx, ny = math.cos(angle), math.sin(angle)
        want = nx * dx + ny * dy
        if want <= 0:
            return 0.0
        total = lambda T: quad(reach, 0, T, args=(nx, ny), epsabs=1e-8, epsrel=1e-8, limit=400)[0] - want
        return brentq(total, 0.1, 60, xtol=1e-9)

    toward = math.atan2(dy, dx)
    tries = toward + np.radians(np.arange(-80, 81, 5))
    a0 = tries[int(np.argmax([hours(a) for a in tries]))]
    best = minimize_scalar(lambda a: -hours(a), bounds=(a0 - 0.09, a0 + 0.09), method="bounded", options={"xatol": 1e-8})
    return -best.fun


HULL_WINDS = np.arange(0, 26.01, 0.1)


def hull_radius(wind):
    """Reach of the hull in every direction of TURN (no current): by lines between the vertices."""
    s = speeds(wind)
    pts = np.stack([s * np.cos(TURN), s * np.sin(TURN)], 1)
    if wind == 0:
        return s[::5]
    hull = ConvexHull(pts)
    n, h = hull.equations[:, :2], -hull.equations[:, 2]
    d = np.stack([np.cos(TURN[::5]), np.sin(TURN[::5])], 1) @ n.T
    return np.min(np.where(d > 1e-12, h / np.where(d > 1e-12, d, 1), np.inf), 1)


RADII = None


def made_good(ex, ey, u, v, wind_kn, wind_from):
    """Greatest speed over the ground along (ex, ey), all arrays: s with |s e - u| on the hull, by secants."""
    global RADII
    if RADII is None:
        RADII = np.array([hull_radius(w) for w in HULL_WINDS])
    ax = -wind_kn * np.sin(np.radians(wind_from)) - u
    ay = -wind_kn * np.cos(np.radians(wind_from)) - v
    w = np.hypot(ax, ay) / 0.1
    i = np.floor(w).astype(int)
    t = w - i
    toward = np.arctan2(-ay, -ax)

    def over(s):
        x, y = s * ex - u, s * ey - v
        a = (np.degrees(np.arctan2(y, x) - toward) % 360) / (5 * STEP_DEG)
        j = np.floor(a).astype(int)
        q = a - j
        n = RADII.shape[1]
        r = (1 - t) * ((1 - q) * RADII[i, j % n] + q * RADII[i, (j + 1) % n]) + t * (
            (1 - q) * RADII[i + 1, j % n] + q * RADII[i + 1, (j + 1) % n]
        )
        return np.hypot(x, y) - r

    low, high = np.zeros_like(ex) + 1e-3, np.zeros_like(ex) + 20
    for _ in range(48):
        middle = (low + high) / 2
        inside = over(middle) < 0
        low, high = np.where(inside, middle, low), np.where(inside, high, middle)
    return (low + high) / 2


def by_line(wind, flow, dx, dy):
    def hours(lines):
        """Each row: y at the inner places of x."""
        b, k = lines.shape[0], lines.shape[1] + 1
        y = np.concatenate([np.zeros((b, 1)), lines, np.full((b, 1), dy)], 1)
        step = dx / k
        t = np.zeros(b)
        half = np.full(b, step / 12)
        for i in range(k):
            by = y[:, i + 1] - y[:, i]
            length = np.hypot(step, by)
            x, mid = (i + 0.5) * step, (y[:, i] + y[:, i + 1]) / 2
            for _ in range(3):
                u, v = flow(x, t + half)
                w, f = wind(x, t + half)
                half = length / made_good(step / length, by / length, u, v, w, f) / 2
            t = t + 2 * half
        return t

    def least(k, start):
        def both(line):
            h = 1e-3
            rows = np.concatenate([line[None, :], line[None, :] + h * np.eye(k - 1), line[None, :] - h * np.eye(k - 1)])
            all_ = hours(rows)
            return all_[0], (all_[1:k] - all_[k:]) / (2 * h)

        for _ in range(3):
            got = minimize(both, start, jac=True, method="L-BFGS-B", options={"maxiter": 400, "ftol": 1e-12, "gtol": 1e-9})
            start = got.x
        return got.fun, start

    k = 30
    start = dy * np.arange(1, k) / k
    coarse, line = least(k, start)
    finer = np.interp(np.arange(1, 2 * k) / 2, np.arange(0, k + 1), np.concatenate([[0], line, [dy]]))
    fine, _ = least(2 * k, finer)
    print("direct", coarse, fine, file=sys.stderr)
    return fine + (fine - coarse) / 3


def bell(x, axis, width):
    return np.exp(-(((x - axis) / width) ** 2))


steady = lambda kn, deg: lambda x, t: (kn, deg)
jet = lambda x, t: (0.0, 3.0 * bell(x, 20, 9))
still = lambda x, t: (0.0, 0.0)
turning = lambda x, t: (12.0, 60.0 + 15.0 * t)
veering = lambda x, t: (12.0, 300.0 + 10.0 * t)
tidal = lambda x, t: (0.0, 2.0 * np.sin(2 * np.pi * t / 12.42))
freshening = lambda x, t: (9.0 + 6.0 * bell(x, 30, 12), 70.0 + 30.0 * bell(x, 30, 12))

CASES = [
    ("reach across a jet", by_multiplier, steady(12, 0), jet, 45, 4),
    ("beat across a jet", by_multiplier, steady(12, 90), jet, 45, 4),
    ("beat across a jet, wind with it", by_multiplier, steady(14, 120), jet, 45, -6),
    ("run across a jet, gybing", by_multiplier, steady(12, 270), jet, 45, 4),
    ("wind that turns from ahead to abeam", by_support, turning, still, 40, 0),
    ("wind that turns, in a tide", by_support, veering, tidal, 40, 6),
    ("wind that freshens and veers half way across", by_multiplier, freshening, still, 50, 5),
    ("the same over a jet", by_multiplier, freshening, jet, 50, 5),
    ("wind that turns in time, over a jet", by_line, veering, jet, 45, 4),
]

out = []
for name, method, wind, flow, dx, dy in CASES:
    if len(sys.argv) > 1 and sys.argv[1] not in name:
        continue
    hours = float(method(wind, flow, dx, dy))
    print(name, hours, file=sys.stderr)
    out.append({"case": name, "method": method.__name__, "toNm": [dx, dy], "hours": round(hours, 6)})
print(json.dumps({"madeBy": "make_sail.py, numpy and scipy", "anglesDeg": ANGLES.tolist(), "windsKn": WINDS, "speedsKn": SPEEDS.tolist(), "cases": out}, indent=1))
