"""
Waves on currents and wind seas, apart from the program: kinematics by scipy's brentq on the wavelength (not the wave number by Newton), wave
action by energies per square metre, edges by following the wave number vector, spectra by numerical integration.
Metres, seconds, radians; knots where the name says so. Run: python3 make_sea.py > sea.json
"""
import json
from math import atan2, cos, degrees, exp, hypot, inf, pi, radians, sin, sinh, sqrt, tanh
from scipy.integrate import quad
from scipy.optimize import brentq, minimize_scalar

G, KN, FT, RHO = 9.80665, 1852 / 3600, 0.3048, 1025.0


def phase_speed(length, depth):
    return sqrt(G * length / (2 * pi) * (tanh(2 * pi * depth / length) if depth else 1.0))


def group(length, depth):
    x = 4 * pi * depth / length if depth else inf
    return phase_speed(length, depth) * (0.5 if x > 600 else 0.5 * (1 + x / sinh(x)))


def still(period, depth):
    return brentq(lambda l: phase_speed(l, depth) * period - l, 1e-3, 5e4, xtol=1e-13, rtol=1e-15)


def meeting(height, period, along, depth, given_depth):
    """Crests pass a fixed place one each period: (c + U) T = L, the longest such L; energy flux over relative frequency is kept."""
    crests = lambda l: (phase_speed(l, depth) + along) * period - l
    l0 = still(period, depth)
    if along < 0:
        # From the still water's length down to where group speed and current cancel.
        slow = lambda l: group(l, depth) + along
        if slow(l0) <= 0:
            return None
        least = brentq(slow, 1e-6, l0, xtol=1e-14, rtol=1e-15)
        if crests(least) * crests(l0) > 0:
            return None
        length = brentq(crests, least, l0, xtol=1e-13, rtol=1e-15)
    else:
        length = brentq(crests, l0, l0 * 1e4, xtol=1e-13, rtol=1e-15) if along > 0 else l0
    lg = still(period, given_depth)
    energy0 = RHO * G * height**2 / 16
    # E Cg / sigma, with 1/sigma the relative period over 2 pi.
    flux = energy0 * group(lg, given_depth) * period
    energy = flux / ((group(length, depth) + along) * (length / phase_speed(length, depth)))
    return {"heightMetres": sqrt(16 * energy / (RHO * G)), "lengthMetres": length}


def system(name, height, period, rate_kn, off_deg=0.0, depth=None, given_depth=None):
    """off_deg: the set off dead against the waves."""
    # A set dead across has, but for rounding, no part along the waves.
    along = 0.0 if abs(off_deg) == 90 else -rate_kn * KN * cos(radians(off_deg))
    got = meeting(height, period, along, depth, given_depth)
    return {"name": name, "givenHeight": height, "periodSeconds": period, "rateKn": rate_kn, "offDeg": off_deg, "depthMetres": depth,
            "givenInDepthMetres": given_depth, "blocked": got is None,
            "gotHeightMetres": got and got["heightMetres"], "gotLengthMetres": got and got["lengthMetres"]}


def edge(name, period, from_deg, set_deg, rate_kn, edge_deg, depth=None):
    """Over a straight edge: the wave number vector followed as the stream grows from nothing in 4000 steps, solved anew at each."""
    w = 2 * pi / period
    k0 = 2 * pi / still(period, depth)
    e = (sin(radians(edge_deg)), cos(radians(edge_deg)))
    kv = (-k0 * sin(radians(from_deg)), -k0 * cos(radians(from_deg)))
    ke = kv[0] * e[0] + kv[1] * e[1]
    n = (e[1], -e[0])
    if kv[0] * n[0] + kv[1] * n[1] < 0:
        n = (-n[0], -n[1])
    kn0 = kv[0] * n[0] + kv[1] * n[1]
    u = (rate_kn * KN * sin(radians(set_deg)), rate_kn * KN * cos(radians(set_deg)))
    ue, un = u[0] * e[0] + u[1] * e[1], u[0] * n[0] + u[1] * n[1]
    sigma = lambda k: sqrt(G * k * (tanh(k * depth) if depth else 1.0))
    steps, kn = 4000, kn0
    for i in range(1, steps + 1):
        s = i / steps
        for _ in range(60):
            k = hypot(kn, ke)
            f = sigma(k) + s * (kn * un + ke * ue) - w
            inward = group(2 * pi / k, depth) * kn / k + s * un
            if inward <= 0 or kn <= 0:
                return None
            step = f / inward
            kn -= step
            if abs(step) < 1e-14 * k:
                break
        else:
            return None
    k = hypot(kn, ke)
    f0 = group(2 * pi / k0, depth) * kn0 / k0 / w
    f1 = (group(2 * pi / k, depth) * kn / k + un) / sigma(k)
    v = (kn * n[0] + ke * e[0], kn * n[1] + ke * e[1])
    return {"name": name, "periodSeconds": period, "fromDegTrue": from_deg, "setDegTrue": set_deg, "rateKn": rate_kn, "edgeAlongDegTrue": edge_deg,
            "depthMetres": depth, "heightRatio": sqrt(f0 / f1), "lengthMetres": 2 * pi / k, "insideFromDegTrue": degrees(atan2(-v[0], -v[1])) % 360}


def blocks(rate_kn, depth):
    """The shortest period that gets on: the crests' period at a fixed place is least over lengths, L / (c - U)."""
    u = rate_kn * KN
    top = brentq(lambda l: phase_speed(l, depth) - u, 1e-9, 1e6) if not depth or u < sqrt(G * depth) else None
    if top is None:
        return None
    found = minimize_scalar(lambda l: l / (phase_speed(l, depth) - u), bounds=(top * 1.001, top * 50), method="bounded", options={"xatol": 1e-12})
    return {"rateKn": rate_kn, "depthMetres": depth, "periodSeconds": found.fun, "lengthMetres": found.x}


def moment(spectrum, n):
    return sum(quad(lambda f: f**n * spectrum(f), a, b, limit=500, epsabs=0, epsrel=1e-12)[0] for a, b in ((0.2, 0.9), (0.9, 1.0), (1.0, 1.2), (1.2, 3), (3, 30), (30, 3000)))


def jonswap(gamma):
    def spectrum(f):
        width = 0.07 if f <= 1 else 0.09
        return f**-5 * exp(-1.25 * f**-4) * gamma ** exp(-((f - 1) ** 2) / (2 * width**2))
    m = {n: moment(spectrum, n) for n in (-1, 0, 1, 2)}
    return {"energy": m[-1] / m[0], "mean": m[0] / m[1], "zeroCrossing": sqrt(m[0] / m[2])}


systems = [
    system("a 3 ft swell of 10 s against 3 kn", 3 * FT, 10, 3),
    system("a 3 ft wind sea of 4 s against 3 kn", 3 * FT, 4, 3),
    system("the same wind sea with 2 kn", 3 * FT, 4, 2, 180),
    system("a 2 ft wind sea of 3.5 s against 3 kn", 2 * FT, 3.5, 3),
    system("a 3 ft sea of 6 s with 2 kn", 3 * FT, 6, 2, 180),
    system("1 m of 6 s against 3 kn", 1, 6, 3),
    system("1 m of 6 s, 60 degrees off against", 1, 6, 3, 60),
    system("1 m of 6 s dead across", 1, 6, 3, 90),
    system("1 m of 6 s, 130 degrees off", 1, 6, 4, 130),
    system("1 m of 5 s in 5 m against 1 m/s, given there", 1, 5, 1 / KN, 0, 5, 5),
    system("a swell over a bar on the ebb", 1.2, 9, 2.5, 20, 4, None),
    system("a swell over a bar on the flood", 1.2, 9, 2.5, 160, 4, None),
    system("a short sea blocked over a bar", 0.6, 3.2, 3, 0, 3, None),
    system("any sea blocked in a shallow race", 0.6, 9, 9, 0, 2, 2),
    system("a long swell, no current, shoaling", 1, 14, 0, 0, 3, None),
]
edges = [edge(*one) for one in (
    ("obliquely against, a stream's edge", 6, 45, 0, 3, 0),
    ("nearly dead against, a stream's edge", 8, 10, 0, 4, 0),
    ("nearly across, a stream's edge", 5, 80, 0, 3, 0),
    ("obliquely with, a stream's edge", 6, 225, 0, 3, 0),
    ("from the other side, in 6 m", 7, 320, 0, 3, 0, 6.0),
    ("an inlet's mouth, obliquely against the ebb", 8, 30, 0, 3, 90),
    ("an inlet's mouth, obliquely with the flood", 8, 150, 0, 3, 90),
    ("an inlet's mouth in 4 m against the ebb", 9, 20, 0, 2, 90, 4.0),
    ("an edge aslant", 7, 60, 0, 2.5, 30),
)]
print(json.dumps({
    "systems": systems, "edges": edges,
    "blocking": [blocks(r, d) for r, d in ((1, None), (3, None), (5, None), (3, 3.0), (4, 5.0), (6, 2.0))],
    "periodOverPeak": {"growing": jonswap(3.3), "full": jonswap(1.0)},
}, indent=1))
