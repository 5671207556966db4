"""Independent reference values for the ways across analytic streams: writes ways.json beside this file.
Run: python3 make_ways.py (Python 3.11, numpy 2, scipy 1.17; ten to twenty seconds; no other input).
Flat plane, x east, y north, nm, kn, h; headings in degrees clockwise from north; start always at (0, 0) at time t0h; off the line is
positive to starboard of the straight line from start to destination. Every way is integrated with scipy's DOP853 (rtol = atol = 1e-12, step
at most 0.25 h) and ends at an event; roots are found with brentq. oneHeading: the miss where the perpendicular through the destination is
first crossed is scanned every 0.25 degree within 85 degrees of the bearing (179 in a uniform current); headingsThatReach has every root,
earliest arrival first; the figures are the earliest's. holdTrack: headed into the stream so that the ground track is the straight line;
where that cannot be done, the first and last along-line distances at which the current across the track exceeds the boat's speed.
bowOnDestination: bow always on the destination, integrated to 0.0001 nm, the rest by the closed form for a uniform current, so durations
are those of a vanishing arrival radius. acrossThenTurn: due east until turnAtNm, then thenHoldTrack (the straight track from there) or
thenOneHeading (one heading from there). Keys under acrossThenTurn and keptUntil say how "so many nm across" is read: x, on the plane's x;
where the line slants also alongLine, the same number along the line, and whereTheLineCrossesX, the along-line distance at which the line
itself crosses that x. orderKept: the heading of strength 1 is kept in the scaled stream until clearOfStreamAtXNm (where the unscaled rate
falls below 0.5 kn for good), then the straight track from there is held; addedHours is against oneHeading at strength 1. reAim: one heading
to the destination from points off the expected path, in the scaled stream. fastest: shooting on the extremal. published: figures worked out
earlier by other means (quadrature of the closed forms with mpmath, shooting, the quadratic for a constant current), and ours minus theirs
(0 below 1e-11); they agree, see notes. Nothing here was made with the program under test.
"""
import functools, json, math, platform
from pathlib import Path
import numpy as np, scipy
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

RTOL, ATOL, MAX_STEP_H = 1e-12, 1e-12, 0.25
SCAN_STEP_DEG, SCAN_HALF_DEG = 0.25, 85.0
CLEAR_KN = 0.5            # clear of the stream: below this rate for good
HANDOVER_NM = 1e-4        # bow on the destination: from here the rest is the closed form for a uniform current
# ---- fields: velocity(x, y, t) -> (east, north); works on numbers and arrays --------------------------------------------
def bell(x, c, w): return np.exp(-(((x - c) / w) ** 2))
def wave(f, t): return np.sin(2 * math.pi / f["periodHours"] * t)
NORTH = {  # the north-going rate of each kind but the two that also set east
    "gaussian": lambda f, x, t: f["peakKn"] * bell(x, f["axisNm"], f["widthNm"]),
    "gaussianSplit": lambda f, x, t: f["peakKn"] * bell(x, f["axisNm"], np.where(x < f["axisNm"], f["widthBeforeNm"], f["widthAfterNm"])),
    "uniformTide": lambda f, x, t: f["peakKn"] * wave(f, t) + 0 * x,
    "gaussianTide": lambda f, x, t: NORTH["gaussian"](f, x, t) * wave(f, t),
    "jetPlusTide": lambda f, x, t: NORTH["gaussian"](f["jet"], x, t) + NORTH["gaussianTide"](f["tide"], x, t)}

def velocity_of(f, k=1.0):
    if f["kind"] == "uniform": return lambda x, y, t: (k * f["eastKn"] + 0 * x, k * f["northKn"] + 0 * x)
    if f["kind"] == "rotating":
        return lambda x, y, t: (k * f["eastKn"] * np.cos(2 * math.pi / f["periodHours"] * t) + 0 * x, k * f["northKn"] * wave(f, t) + 0 * x)
    north = NORTH[f["kind"]]
    return lambda x, y, t: (0 * x, k * north(f, x, t))
# ---- geometry -------------------------------------------------------------------------------------------------------------
class Line:
    """From a to b: along (unit) and starboard (unit, to the right of the line)."""
    def __init__(self, a, b):
        self.a, self.b = np.asarray(a, float), np.asarray(b, float)
        self.length = float(np.hypot(*(self.b - self.a)))
        self.along = (self.b - self.a) / self.length
        self.starboard = np.array([self.along[1], -self.along[0]])
        self.bearing = math.atan2(self.along[0], self.along[1])          # clockwise from north, radians
    def off(self, r): return float((np.asarray(r[:2]) - self.a) @ self.starboard)

def degrees(rad): return math.degrees(rad) % 360
# ---- one integration -------------------------------------------------------------------------------------------------------
class Leg:
    """Integrates d(x, y)/dt = motion(t, x, y) from (p, t0) until stop(t, r) rises through zero; keeps off-line extremes and miles."""
    def __init__(self, motion, p, t0, stop, line=None, others=(), hours=600.0):
        def rhs(t, s):
            u, v = map(float, motion(t, s[0], s[1]))
            return u, v, math.hypot(u, v)
        events = [stop, *others]
        for event in events: event.terminal, event.direction = True, 1
        if line is not None: events.append(lambda t, s: line.starboard @ rhs(t, s)[:2])
        sol = solve_ivp(rhs, (t0, t0 + hours), (p[0], p[1], 0.0), method="DOP853", rtol=RTOL, atol=ATOL, max_step=MAX_STEP_H, events=events)
        self.stopped = next((i for i in range(1 + len(others)) if len(sol.t_events[i])), None)
        self.t, self.p, self.ground = float(sol.t[-1]), sol.y[:2, -1], float(sol.y[2, -1])
        if line is not None:
            self.off = [pick(line.off(r) for r in (p, self.p, *sol.y_events[-1])) for pick in (min, max)]
def figures(case, t0, legs, **more):
    T = legs[-1].t - t0
    return {**more, "durationHours": T, "throughWaterNm": case["boatKn"] * T, "overGroundNm": sum(l.ground for l in legs),
            "offLineNm": {"min": min(l.off[0] for l in legs), "max": max(l.off[1] for l in legs)}}
# ---- one heading -------------------------------------------------------------------------------------------------------------
def steer(S, vel, heading):
    own = np.array([S * math.sin(heading), S * math.cos(heading)])
    return lambda t, x, y: own + vel(x, y, t)
def to_perpendicular(S, vel, heading, p, t0, goal, line=None): return Leg(steer(S, vel, heading), p, t0, lambda t, s: (s[:2] - goal.b) @ goal.along, line)

def scan(S, vel, p, t, goal, half, dt=0.05, hours=150.0):
    """Miss (nm to starboard) where the perpendicular is first crossed, all headings at once (RK4, x + iy); NaN: never crossed."""
    h = goal.bearing + np.radians(np.linspace(-half, half, int(2 * half / SCAN_STEP_DEG) + 1))
    water, z, miss, until = S * (np.sin(h) + 1j * np.cos(h)), np.full(len(h), complex(*p)), np.full(len(h), np.nan), t + hours
    f = lambda t, z: water + np.array([1, 1j]) @ np.array(vel(z.real, z.imag, t))
    in_line = lambda z: (z - complex(*goal.b)) * complex(*goal.along).conjugate()      # real: along, past b; imaginary: to port
    while np.isnan(miss).any() and t < until:
        k1 = f(t, z); k2 = f(t + dt / 2, z + dt / 2 * k1); k3 = f(t + dt / 2, z + dt / 2 * k2); k4 = f(t + dt, z + dt * k3)
        nz = z + dt / 6 * (k1 + 2 * k2 + 2 * k3 + k4)
        a, b = in_line(z), in_line(nz)
        new = np.isnan(miss) & (a.real < 0) & (b.real >= 0)
        miss[new] = -(a.imag + a.real / np.where(new, a.real - b.real, 1) * (b.imag - a.imag))[new]
        z, t = nz, t + dt
    return h, miss

def headings_that_reach(S, vel, p, t0, to, half=SCAN_HALF_DEG):
    """Every single heading (rad) from (p, t0) to the destination, with its leg, earliest arrival first."""
    h, miss = scan(S, vel, p, t0, goal := Line(p, to), half)
    exact = lambda heading: (to_perpendicular(S, vel, heading, p, t0, goal).p - goal.b) @ goal.starboard
    found = []
    for i in np.flatnonzero(np.sign(miss[:-1]) * np.sign(miss[1:]) <= 0):
        lo, hi = h[max(i - 1, 0)], h[min(i + 2, len(h) - 1)]
        if exact(lo) * exact(hi) > 0: continue
        root = brentq(exact, lo, hi, xtol=1e-14, rtol=1e-14)
        if abs(exact(root)) < 1e-8 and all(abs(root - q) > 1e-9 for q in found): found.append(root)      # not a jump, not seen before
    return sorted(((r, to_perpendicular(S, vel, r, p, t0, goal)) for r in found), key=lambda q: q[1].t)

def one_heading(case, vel, line):
    S, t0, half = case["boatKn"], case["t0h"], 179.0 if case["field"]["kind"] == "uniform" else SCAN_HALF_DEG
    found = headings_that_reach(S, vel, (0, 0), t0, case["to"], half)
    if not found: return {"answered": False, "why": "no single heading reaches the destination", "headingsThatReach": []}
    every = [{"headingDegTrue": degrees(q), "durationHours": l.t - t0} for q, l in found]
    earliest = to_perpendicular(S, vel, found[0][0], (0, 0), t0, line, line)
    return figures(case, t0, [earliest], answered=True, headingDegTrue=every[0]["headingDegTrue"], headingsThatReach=every)
# ---- hold the track ------------------------------------------------------------------------------------------------------------
def held(S, vel, p, t0, to, line):
    """Leg along the straight track from p to `to`, or None where the boat cannot hold it."""
    goal = Line(p, to)
    def motion(t, x, y):
        w = np.array(vel(x, y, t))
        room = S * S - (w @ goal.starboard) ** 2
        a = max(math.sqrt(room) + w @ goal.along, 0.0) if room >= 0 else 0.0
        return a * goal.along[0], a * goal.along[1]
    leg = Leg(motion, p, t0, lambda t, s: (s[:2] - goal.b) @ goal.along, line, hours=60.0)
    return leg if leg.stopped == 0 else None

def cannot_hold(S, vel, line):     # steady streams: along-line distances where the current across the track passes the boat's speed
    room = lambda s: S - abs(np.array(vel(*(line.a + s * line.along), 0.0)) @ line.starboard)
    s = np.linspace(0, line.length, 20001)
    r = np.array([room(q) for q in s])
    edges = [brentq(room, s[i], s[i + 1], xtol=1e-13) for i in np.flatnonzero(r[:-1] * r[1:] < 0)]
    return ([0.0] if r[0] <= 0 else []) + edges + ([line.length] if r[-1] <= 0 else [])

def hold_track(case, vel, line):
    leg = held(case["boatKn"], vel, (0, 0), case["t0h"], case["to"], line)
    if leg: return figures(case, case["t0h"], [leg], answered=True)
    assert case["field"]["kind"] in ("uniform", "gaussian", "gaussianSplit")
    e = cannot_hold(case["boatKn"], vel, line)
    return {"answered": False, "why": "current across the track stronger than the boat", "firstAlongNm": e[0], "lastAlongNm": e[-1]}
# ---- bow on the destination ------------------------------------------------------------------------------------------------------
def bow_on(case, vel, line):
    S, t0, d = case["boatKn"], case["t0h"], line.b
    dist = lambda s: math.hypot(d[0] - s[0], d[1] - s[1])
    motion = lambda t, x, y: S / dist((x, y)) * (d - (x, y)) + vel(x, y, t)
    leg = Leg(motion, (0, 0), t0, lambda t, s: HANDOVER_NM - dist(s), line,
              [lambda t, s: dist(s) - 3 * line.length, lambda t, s: 1e-7 - math.hypot(*motion(t, s[0], s[1]))])
    if leg.stopped == 0:
        w = np.array(vel(*leg.p, leg.t))           # exact in a uniform current w: d/dt(S |r| - r.w) = -(S^2 - w^2)
        leg.t += (S * dist(leg.p) - (d - leg.p) @ w) / (S * S - w @ w)
        leg.ground += dist(leg.p)
        return figures(case, t0, [leg], answered=True, reason="arrives")
    if leg.stopped == 2:       # at rest over the ground, approached ever more slowly
        return {"answered": False, "reason": "stalls", "stallsAtXY": list(leg.p), "stallsOffDestinationNm": dist(leg.p)}
    near, later = (Leg(motion, (0, 0), t0, stop) for stop in (lambda t, s: (s[:2] - d) @ motion(t, s[0], s[1]), lambda t, s: t - t0 - 6.0))
    return {"answered": False, "reason": "carried away", "nearest": {"distanceNm": dist(near.p), "afterHours": near.t - t0},
            "after6HoursAtXY": list(later.p)}
# ---- across, then turn; the order kept in a stream of another strength -------------------------------------------------------------
def turn_rules(case, x):
    """Where 'x nm across' is: on the chart's x; for a slanting line also along the line, two ways of reading it."""
    east, along = np.array([1.0, 0.0]), Line((0, 0), case["to"]).along
    return {"x": (east, x)} | ({"alongLine": (along, x), "whereTheLineCrossesX": (along, x / along[0])} if case["to"][1] else {})

def across_then_turn(case, vel, line):
    S, t0, out = case["boatKn"], case["t0h"], {}
    for name, (n, at) in turn_rules(case, case["turnAtNm"]).items():
        first = Leg(steer(S, vel, math.pi / 2), (0, 0), t0, lambda t, s: s[:2] @ n - at, line)
        second = held(S, vel, first.p, first.t, case["to"], line)
        h = headings_that_reach(S, vel, first.p, first.t, case["to"])[0][0]
        third = to_perpendicular(S, vel, h, first.p, first.t, Line(first.p, case["to"]), line)
        out[name] = {"headingDegTrue": 90.0, "turnAtXY": list(first.p), "turnAfterHours": first.t - t0, "offLineAtTurnNm": line.off(first.p),
                     "thenHoldTrack": figures(case, t0, [first, second]),
                     "thenOneHeading": figures(case, t0, [first, third], headingDegTrue=degrees(h))}
    return out

def order_kept(case, line, one):
    S, t0, rows = case["boatKn"], case["t0h"], []
    for k in (0.8, 1.0, 1.25):
        vel = velocity_of(case["field"], k)
        for name, (n, at) in turn_rules(case, case["clearOfStreamAtXNm"]).items():
            first = Leg(steer(S, vel, math.radians(one["headingDegTrue"])), (0, 0), t0, lambda t, s: s[:2] @ n - at, line)
            done = figures(case, t0, [first, held(S, vel, first.p, first.t, case["to"], line)])
            rows.append({"strength": k, "keptUntil": name, "clearAtXY": list(first.p), "clearAfterHours": first.t - t0,
                         "offLineAtClearNm": line.off(first.p), **done, "addedHours": done["durationHours"] - one["durationHours"]})
    return rows

def re_aim(case, one):
    S, h, rows = case["boatKn"], math.radians(one["headingDegTrue"]), []
    for x in (10.0, 25.0, 40.0):
        here = Leg(steer(S, velocity_of(case["field"]), h), (0, 0), case["t0h"], lambda t, s: s[0] - x)
        for dy in (-4.0, -2.0, 0.0, 2.0, 4.0):
            for k in (0.8, 1.0, 1.25):
                p = (x, here.p[1] + dy)
                found = headings_that_reach(S, velocity_of(case["field"], k), p, here.t, case["to"])
                rows.append({"fromXY": list(p), "offPathNorthNm": dy, "afterHours": here.t - case["t0h"], "strength": k, "roots": len(found),
                             "headingDegTrue": degrees(found[0][0]), "remainingHours": found[0][1].t - here.t})
    return rows
# ---- fastest (current along y only, depending on x and t): theta' = sin^2(theta) dv/dx, theta from +x ---------------------------------
def fastest(case, vel, line, one):
    S, t0, (D, dy), e = case["boatKn"], case["t0h"], case["to"], 1e-5
    def shoot(theta0):
        def rhs(t, s):
            north = lambda x: float(vel(x, 0, t)[1])
            slope = (8 * (north(s[0] + e) - north(s[0] - e)) - north(s[0] + 2 * e) + north(s[0] - 2 * e)) / (12 * e)
            return S * math.cos(s[2]), S * math.sin(s[2]) + north(s[0]), math.sin(s[2]) ** 2 * slope
        end = lambda t, s: s[0] - D
        end.terminal = True
        return solve_ivp(rhs, (t0, t0 + 60), (0, 0, theta0), method="DOP853", rtol=1e-11, atol=1e-11, max_step=MAX_STEP_H, events=end)
    guess, wide = math.radians(90 - one["headingDegTrue"]), math.radians(4)
    sol = shoot(brentq(lambda q: shoot(q).y[1, -1] - dy, guess - wide, guess + wide, xtol=1e-12))
    start, end = (degrees(math.pi / 2 - q) for q in sol.y[2, [0, -1]])
    return {"durationHours": sol.t[-1] - t0, "headingAtStartDegTrue": start, "headingAtEndDegTrue": end}
# ---- cases and earlier figures ---------------------------------------------------------------------------------------------------------
gauss = lambda P, c, w: {"kind": "gaussian", "peakKn": P, "axisNm": c, "widthNm": w}
uniform = lambda u, v: {"kind": "uniform", "eastKn": u, "northKn": v}
TIDE = {"periodHours": 12.42}
J5 = {"kind": "gaussianSplit", "peakKn": 3.5, "axisNm": 12.0, "widthBeforeNm": 5.0, "widthAfterNm": 14.0}
C8 = {"kind": "jetPlusTide", "jet": {"peakKn": 4.0, "axisNm": 18.0, "widthNm": 8.0}, "tide": {"peakKn": 2.0, "axisNm": 40.0, "widthNm": 6.0, **TIDE}}
O, H, F = "oneHeading", "holdTrack", "fastest"
NAMES = {"O": O, "C": O, "H": H, "F": F, "A": "acrossThenTurn.x.thenHoldTrack"}     # C: its heading; the others: durations
dur = lambda **k: {f"{NAMES[n]}.headingDegTrue" if n == "C" else f"{NAMES[n]}.durationHours": v for n, v in k.items()}
CASES = [  # id, field, boat kn, to, t0, turn at, earlier figures
    ("J1", gauss(3.0, 25.0, 10.0), 6, (50, 0), 0, 45, dur(F=8.4671525634801, O=8.4672885682953, H=8.6363472006772, A=9.1982447437575, C=100.205152983)),
    ("J2", gauss(4.5, 20.0, 9.0), 5, (50, 10), 0, 38, dur(F=10.038620254656, O=10.038650330901, H=10.923797713536, A=10.152639301571, C=95.0293981193)),
    ("J4", gauss(5.5, 18.0, 8.0), 5, (45, 0), 0, 34, dur(F=9.5824541540354, O=9.5938404876436, A=10.619849261156, C=110.264799752)),
    ("J5", J5, 5.5, (45, 0), 0, 40, dur(F=8.4229773149584, O=8.4237153357106, H=8.7521328756049, A=9.4280177216271, C=103.764041003)),
    *((f"C2-{n}", uniform(*w), S, d, 0, None, p) for n, d, w, S, p in [
        ("north-set", (45, 0), (0, 2.5), 6, dur(O=8.250286473254, C=114.62431835)),
        ("south-set", (45, 0), (0, -2.5), 6, dur(O=8.250286473254, C=65.37568165)),
        ("slanting", (30, 30), (1.5, 2), 5.5, dur(O=5.327609185163, C=48.68565351)),
        ("south-east", (20, -10), (0, 3), 5, dur(O=7.771238207535, C=149.02135964)),
        ("ahead", (10, 0), (-2, 0), 6, dur(O=2.5)), ("astern", (10, 0), (2, 0), 6, dur(O=1.25)),
        ("stronger-two-headings", (10, 30), (0, 4), 3, {**dur(O=4.853821047082), f"{O}.headingsThatReach.1.durationHours": 29.431893238632}),
        ("stronger-inside-cone", (25, 30), (0, 4), 3, {}), ("stronger-outside-cone", (30, 25), (0, 4), 3, {})]),
    *((f"C5-t{t}", {"kind": "uniformTide", "peakKn": 2.5, **TIDE}, 5, (20, 0), t, None, p) for t, p in [
        (0, dur(O=4.288082992371, H=4.3494397702, C=111.121598)), (0.92, dur(O=4.372948)),
        (1.5, dur(O=4.341752109587, H=4.3754419429, C=112.885029)), (3.105, dur(O=4.092978137009, H=4.2182212092, C=102.235844)),
        (4.21, dur(O=4.0, H=4.1589798915, C=90)), (9.315, dur(O=4.092978137009, C=77.764156))]),
    ("C6", {"kind": "rotating", "eastKn": 1.0, "northKn": 2.0, **TIDE}, 5, (18, 8), 0, None, dur(O=3.289671278762, C=77.079671942)),
    *((f"C7-t{t}", {"kind": "gaussianTide", "peakKn": 3.5, "axisNm": 11.0, "widthNm": 7.0, **TIDE}, 5, (22, 0), t, None, p)
      for t, p in [(0, dur(F=4.6344063363, O=4.6353332627, H=4.8360931126, C=108.3355338)), (1.5, dur(F=4.6416893862, O=4.6425758777, H=4.8142157858)),
                   (3, dur(F=4.4601859678, O=4.4602371539, H=4.5271729505)), (4, dur(F=4.4000067117, O=4.4000067117, H=4.4490730261)),
                   (7, dur(F=4.6784079853, O=4.6796065818, H=4.9005680144, C=70.0935799))]),
    ("C8-t0", C8, 5.5, (48, 0), 0, 34, dur(F=8.8642440884, O=8.8644939349, H=9.4839438474)),
    ("C8-t3.105", C8, 5.5, (48, 0), 3.105, 34, dur(F=8.8304367079, O=8.8307249649, H=9.4621832166)),
    ("N1-carried-away", uniform(0, 4.5), 4, (20, 0), 0, None, {}), ("N2-stalls", uniform(0, 4), 4, (20, 0), 0, None, {}),
    ("M1-not-held-in-mid-stream", gauss(4.5, 15.0, 6.0), 4, (40, 0), 0, None, {}),
]
FIELDS = {
    "uniform": "(eastKn, northKn)", "gaussian": "north = peakKn exp(-((x-axisNm)/widthNm)^2)",
    "gaussianSplit": "as gaussian with widthBeforeNm for x < axisNm, widthAfterNm for x >= axisNm",
    "uniformTide": "north = peakKn sin(2 pi t / periodHours)", "rotating": "(eastKn cos(2 pi t / periodHours), northKn sin(2 pi t / periodHours))",
    "gaussianTide": "gaussian times sin(2 pi t / periodHours)", "jetPlusTide": "north = gaussian(jet) + gaussian(tide) sin(2 pi t / periodHours)"}

def tidy(v):
    if isinstance(v, dict): return {k: tidy(q) for k, q in v.items()}
    if isinstance(v, (list, tuple)): return [tidy(q) for q in v]
    if not isinstance(v, (float, np.floating)): return v
    v = float(f"{float(v):.14g}") if abs(v) > 1e-11 else 0.0
    return int(v) if v == int(v) else v

def text(v, pad=""):
    """JSON with short arrays on one line, as the repository's formatter wants it."""
    inner = pad + "  "
    if isinstance(v, dict) and v:
        return "{\n" + ",\n".join(f"{inner}{json.dumps(k)}: {text(q, inner)}" for k, q in v.items()) + f"\n{pad}}}"
    if isinstance(v, list) and v and isinstance(v[0], dict): return "[\n" + ",\n".join(inner + text(q, inner) for q in v) + f"\n{pad}]"
    return json.dumps(v, ensure_ascii=False).replace("e-0", "e-") if isinstance(v, float) else json.dumps(v)

def work_out(row):
    name, field, S, to, t0, turn, published = row
    vel, line = velocity_of(field), Line((0, 0), to)
    case = {"id": name, "field": field, "boatKn": S, "to": list(to), "t0h": t0}
    if name in ("J1", "J2", "J4", "J5"):
        w = field.get("widthNm", field.get("widthAfterNm"))
        case["clearOfStreamAtXNm"] = field["axisNm"] + w * math.sqrt(math.log(field["peakKn"] / CLEAR_KN))
    if turn: case["turnAtNm"] = turn
    ways = {} if name == "N2-stalls" else {O: one_heading(case, vel, line), H: hold_track(case, vel, line)}
    ways["bowOnDestination"] = bow_on(case, vel, line)
    if turn: ways["acrossThenTurn"] = across_then_turn(case, vel, line)
    if f"{F}.durationHours" in published: ways[F] = fastest(case, vel, line, ways[O])
    case["ways"] = ways
    if name in ("J1", "J2", "J5"): case["orderKept"] = order_kept(case, line, ways[O])
    if name == "J1": case["reAim"] = re_aim(case, ways[O])
    ours = lambda path: functools.reduce(lambda v, k: v[int(k)] if isinstance(v, list) else v[k], path.split("."), ways)
    case["published"] = {k: {"value": v, "oursMinusTheirs": float(f"{ours(k) - v:.2g}")} for k, v in published.items()}
    return case

if __name__ == "__main__":
    cases = [work_out(row) for row in CASES]
    diffs = [(k.split(".")[-1], abs(q["oursMinusTheirs"]), c["id"]) for c in cases for k, q in c["published"].items()]
    (hours, h_id), (deg, d_id) = (max((d, i) for n, d, i in diffs if n == unit) for unit in ("durationHours", "headingDegTrue"))
    assert all(d < 1e-6 for _, d, _ in diffs)
    notes = (f"All {len(diffs)} earlier figures agree: hours to {hours:.1g} ({h_id}), headings to {deg:.1g} degree ({d_id}); "
             "the largest are the rounding of the earlier figure.")
    versions = {"python": platform.python_version(), "numpy": np.__version__, "scipy": scipy.__version__}
    made = {"how": " ".join(__doc__.split()), "notes": notes, **versions, "fields": FIELDS}
    Path(__file__).with_name("ways.json").write_text(text(tidy({"made": made, "cases": cases})) + "\n")
    print(notes)
