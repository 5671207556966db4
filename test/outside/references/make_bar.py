"""Independent reference values for a bar: writes bar.json beside this file.
Run: python3 make_bar.py (Python 3.11, numpy and scipy; some ten seconds; no other input).
Tide and stream: a plain sum of cosines whose arguments are reckoned anew at every instant from the moon's and sun's mean longitudes (J. Meeus,
Astronomical Algorithms, 2nd ed., ch. 22, 25, 47), with the node factors of P. Schureman, Special Publication 98 (1940), equations 73, 75, 78, 224, 227
and tables 2 and 14 in closed form; the equilibrium arguments are held against printed ones for 1970 first (V0 + u of M2, O1, K1).
Waves on the bar: linear theory; the wave number on a current is the root of sqrt(g k tanh k d) + k U = w left of the greatest value of the
left side, found with scipy (bounded search, then Brent); none: blocked. Height by the flux of wave action, E / s (group speed + U), from deep, still
water. The wind's own sea: 0.0016 and 0.286 of the Shore Protection Manual's form with the wind at 10 m, as a course's worked exercise states them.
Breaking from Hs/L = 1/13, or 1.8585 Hs = 0.78 d. Heights of two systems are joined by squares.
The bar is asked every half minute, and every change is halved to 0.05 s. Nothing here was made with the program under test.
"""
import json
from datetime import datetime, timezone
from math import atan, atan2, acos, cos, degrees, hypot, pi, radians, sin, sqrt, tan, tanh, sinh, log
from pathlib import Path
from scipy.optimize import brentq, minimize_scalar

G, KNOT, NM = 9.80665, 1852 / 3600, 1852.0

def utc(text): return datetime.fromisoformat(text).replace(tzinfo=timezone.utc).timestamp()
def iso(at): return datetime.fromtimestamp(round(at, 1), timezone.utc).isoformat().replace("+00:00", "Z")

# --- tide and stream -------------------------------------------------------------------------------------------------
def longitudes(at):
    days = at / 86400 - 10957.5  # from 1.5 January 2000
    T = days / 36525
    s = 218.3164477 + 481267.88123421 * T - 0.0015786 * T * T
    h = 280.46646 + 36000.76983 * T + 0.0003032 * T * T
    p = 83.3532465 + 4069.0137287 * T - 0.0103200 * T * T
    N = 125.04452 - 1934.136261 * T + 0.0020708 * T * T
    t = (at % 86400) / 240.0 + 180.0  # the mean sun's hour angle
    return t, s, h, p, N

def arguments(at):
    """name -> (f, V + u in degrees)"""
    t, s, h, p, N = longitudes(at)
    n = radians((N + 180) % 360 - 180)
    w, i = radians(23.452), radians(5.145)
    a = atan(cos((w - i) / 2) / cos((w + i) / 2) * tan(n / 2))
    b = atan(sin((w - i) / 2) / sin((w + i) / 2) * tan(n / 2))
    xi, nu = n - a - b, a - b
    I = acos(cos(i) * cos(w) - sin(i) * sin(w) * cos(n))
    nup = atan2(sin(2 * I) * sin(nu), sin(2 * I) * cos(nu) + 0.3347)
    xi, nu, nup = degrees(xi), degrees(nu), degrees(nup)
    fm = cos(I / 2) ** 4 / 0.9154
    fo = sin(I) * cos(I / 2) ** 2 / 0.3800
    fk = sqrt(0.8965 * sin(2 * I) ** 2 + 0.6001 * sin(2 * I) * cos(radians(nu)) + 0.1006)
    um = 2 * xi - 2 * nu
    m2 = 2 * (t - s + h)
    return {
        "M2": (fm, m2 + um), "N2": (fm, 2 * t - 3 * s + 2 * h + p + um), "S2": (1.0, 2 * t), "M4": (fm * fm, 2 * (m2 + um)),
        "K1": (fk, t + h - 90 - nup), "O1": (fo, t - 2 * s + h + 90 + 2 * xi - nu),
    }

# V0 + u (u of the middle of the year) for 1 January 1970, 0 h, as printed: M2 165.43, K1 13.44, O1 150.71.
new_year, middle = arguments(utc("1970-01-01T00:00")), arguments(utc("1970-07-02T12:00"))
for name, printed in [("M2", 165.43), ("K1", 13.44), ("O1", 150.71)]:
    t, s, h, p, N = longitudes(utc("1970-07-02T12:00"))
    plain = {"M2": 2 * (t - s + h), "K1": t + h - 90, "O1": t - 2 * s + h + 90}[name]
    u = middle[name][1] - plain
    t, s, h, p, N = longitudes(utc("1970-01-01T00:00"))
    v0 = {"M2": 2 * (t - s + h), "K1": t + h - 90, "O1": t - 2 * s + h + 90}[name]
    off = (v0 + u - printed + 180) % 360 - 180
    assert abs(off) < 0.1, (name, off)

TIDE = {"meanLevelMetres": 1.9, "constants": [["M2", 1.1, 123], ["S2", 0.35, 150], ["N2", 0.22, 95], ["K1", 0.2, 40], ["O1", 0.15, 20], ["M4", 0.06, 210]]}
STREAM = {"floodDeg": 70, "ebbDeg": 260, "meanKn": -0.2, "constants": [["M2", 2.0, 62], ["S2", 0.6, 92], ["N2", 0.4, 35], ["K1", 0.3, 300]]}
BAR = {"depthMetres": 1.6, "draughtMetres": 1.9, "underKeelMetres": 0.6, "seaNeverMetres": 1.3, "fromDeg": 230, "fetchNm": 8, "ebbNeverKn": 2.2,
       "floodNeverKn": 3.0, "windAgainstNeverKn2": 30}
# from, until (hours from the beginning), sea metres, sea seconds, wind knots, wind from
WEATHER = [[0, 24, 0.7, 10, 4, 250], [24, 48, 1.15, 8, 11, 280], [48, 72, 0.9, 6, 17, 240], [72, 84, 0.3, 5, 6, 60]]
BEGINS = utc("2027-05-20T00:00")
ENDS = BEGINS + 72 * 3600

def height(at):
    now = arguments(at)
    return TIDE["meanLevelMetres"] + sum(a * now[n][0] * cos(radians(now[n][1] - g)) for n, a, g in TIDE["constants"])
def stream(at):
    now = arguments(at)
    return KNOT * (STREAM["meanKn"] + sum(a * now[n][0] * cos(radians(now[n][1] - g)) for n, a, g in STREAM["constants"]))

# --- waves -----------------------------------------------------------------------------------------------------------
def group(k, d):
    return 0.5 * (1 + 2 * k * d / sinh(min(2 * k * d, 600))) * sqrt(G * tanh(k * d) / k)
def on_bar(H, T, angle_deg, rate, d):
    """rate: of the stream, m/s; angle between where the waves go and where it sets. None: blocked."""
    U, w = rate * cos(radians(angle_deg)), 2 * pi / T
    left = lambda k: sqrt(G * k * tanh(k * d)) + k * U - w
    if U < 0:
        top = minimize_scalar(lambda k: -left(k), bounds=(1e-4, 40), method="bounded", options={"xatol": 1e-11})
        if left(top.x) <= 0: return None
        k = brentq(left, 1e-6, top.x, xtol=1e-15, rtol=1e-14)
    else: k = brentq(left, 1e-6, 400, xtol=1e-15, rtol=1e-14)
    s = sqrt(G * k * tanh(k * d))
    flux0 = G / (2 * w) / w
    Hb = H * sqrt(flux0 * s / (group(k, d) + U))
    L = 2 * pi / k
    carries = min(L / 13, 0.78 * d / sqrt(0.5 * log(1000)))
    return {"H": Hb, "stands": min(Hb, carries), "steep": Hb / L, "steepBreaks": Hb >= L / 13, "depthBreaks": Hb >= 0.78 * d / sqrt(0.5 * log(1000))}
def own_sea(U, F):
    f = G * F / U ** 2
    f = min(f, (0.243 / 0.0016) ** 2)
    return 0.0016 * sqrt(f) * U * U / G, min(0.286 * f ** (1 / 3), 8.13) * U / G

def weather(at):
    hours = (at - BEGINS) / 3600
    for a, b, *rest in WEATHER:
        if a <= hours < b: return rest
    raise ValueError(at)

def reasons(at, figures=None):
    sea_h, sea_t, wind_kn, wind_from = weather(at)
    z, q = height(at), stream(at)
    water = BAR["depthMetres"] + z
    found = set()
    sets = STREAM["floodDeg"] if q >= 0 else STREAM["ebbDeg"]
    systems = [(sea_h, sea_t, BAR["fromDeg"])]
    if abs((wind_from - STREAM["ebbDeg"] + 180) % 360 - 180) < 90:
        H, T = own_sea(wind_kn * KNOT, BAR["fetchNm"] * NM)
        systems.append((H, T, wind_from))
    parts = [on_bar(H, T, from_deg + 180 - sets, abs(q), water) for H, T, from_deg in systems if H >= 0.2]
    sea = None
    if any(part is None for part in parts): found.add("blocked")
    else:
        sea = sqrt(sum(part["stands"] ** 2 for part in parts))
        if any(part["steepBreaks"] or part["depthBreaks"] for part in parts) or sea >= 0.78 * water / sqrt(0.5 * log(1000)): found.add("breaking")
        if sea > BAR["seaNeverMetres"]: found.add("seaHeight")
    left = water - BAR["draughtMetres"] - (0 if sea is None else sea)
    if left < BAR["underKeelMetres"]: found.add("depth")
    if -q > BAR["ebbNeverKn"] * KNOT: found.add("ebb")
    if q > BAR["floodNeverKn"] * KNOT: found.add("flood")
    against = max(0.0, cos(radians(wind_from - STREAM["ebbDeg"]))) * wind_kn * max(0.0, -q) / KNOT
    if against > BAR["windAgainstNeverKn2"]: found.add("windAgainstEbb")
    if figures is not None:
        figures.update(heightMetres=round(z, 4), streamKn=round(q / KNOT, 4), seaMetres=None if sea is None else round(sea, 4),
                       underKeelMetres=None if sea is None else round(left, 4), windAgainstKn2=round(against, 3))
    return frozenset(found)

def changes():
    made, at, now = [], BEGINS, reasons(BEGINS)
    made.append((BEGINS, now))
    while at < ENDS - 30:
        nxt, low = at + 30, at
        there = reasons(nxt)
        while there != now:
            a, b = low, nxt
            while b - a > 0.05:
                m = (a + b) / 2
                if reasons(m) == now: a = m
                else: b = m
            now, low = reasons(b), b
            made.append((b, now))
        at = nxt
    return made

made = changes()
def is_open(at): return len(reasons(at)) == 0

def first_minute(at, sense, margin=15):
    """The first whole minute from `at` at which the bar is open, and surely so: not within some seconds of a change."""
    for minutes in range(1, 24 * 60 + 1):
        there = at + sense * 60 * minutes
        if is_open(there):
            assert is_open(there - margin) and is_open(there + margin), iso(there)
            before = there - sense * 60
            assert not is_open(before - margin) and not is_open(before + margin), iso(before)
            return minutes
    return None

def case(text, hours):
    at = utc(text) + hours * 3600
    figures = {}
    shut = sorted(reasons(at, figures))
    assert shut, text
    return {"departAt": iso(utc(text)), "there": iso(at), "shutBy": shut, "figures": figures, "earlierMin": first_minute(at, -1), "laterMin": first_minute(at, 1)}

samples = []
for k in range(0, 72 * 2):
    at, figures = BEGINS + 1800 * k, {}
    shut = sorted(reasons(at, figures))
    samples.append({"at": iso(at), **figures, "reasons": shut})
out = {
    "tide": TIDE, "stream": STREAM, "bar": BAR, "weather": WEATHER, "begins": iso(BEGINS), "ends": iso(ENDS),
    "changes": [{"at": iso(at), "reasons": sorted(now)} for at, now in made],
    "rows": samples,
    "out": case("2027-05-21T09:10:30", 0),
    "in": case("2027-05-21T03:20:30", 6),
}
Path(__file__).with_name("bar.json").write_text(json.dumps(out, indent=1) + "\n")
