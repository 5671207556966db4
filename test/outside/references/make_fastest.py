"""Reference times of the fastest way for a boat under power that loses speed against the wind, in a stream along y that depends on x alone.

Steady water, steady wind: with the multiplier k of "arrive dy along" the fastest way minimises, at every x by itself over the heading,
(1 - k * vy) / vx; k is found so that the integral of vy / vx is dy. scipy: quad (Gauss-Kronrod), minimize_scalar (bounded), brentq.
Knots, nautical miles, hours, x east, y north, wind in degrees from.
"""
import math
from scipy.integrate import quad
from scipy.optimize import brentq, minimize_scalar

def solve(jet, boat, loss, wind_kn, wind_from, dx, dy):
    wx, wy = -wind_kn * math.sin(math.radians(wind_from)), -wind_kn * math.cos(math.radians(wind_from))

    def go(heading, x):
        u, v = 0.0, jet(x)
        ax, ay = wx - u, wy - v
        ahead = -(ax * math.sin(heading) + ay * math.cos(heading))
        s = boat * max(0.0, 1 - (loss * (ahead / 20) ** 2 if ahead > 0 else 0))
        return u + s * math.sin(heading), v + s * math.cos(heading)

    def best(x, k):
        def cost(h):
            vx, vy = go(h, x)
            return (1 - k * vy) / vx if vx > 0.05 else 1e3 + h * h
        grid = [math.radians(d) for d in range(20, 161, 4)]
        h0 = min(grid, key=cost)
        r = minimize_scalar(cost, bounds=(h0 - 0.08, h0 + 0.08), method="bounded", options={"xatol": 1e-11})
        return r.x

    def landed(k):
        def slope(x):
            vx, vy = go(best(x, k), x)
            return vy / vx
        return quad(slope, 0, dx, epsabs=1e-9, epsrel=1e-10, limit=200)[0]

    k = brentq(lambda kk: landed(kk) - dy, -0.15, 0.12, xtol=1e-12)
    t = quad(lambda x: 1 / go(best(x, k), x)[0], 0, dx, epsabs=1e-9, epsrel=1e-10, limit=200)[0]
    return t, k, math.degrees(best(0, k)), math.degrees(best(dx / 2, k))

jet = lambda x: 3.5 * math.exp(-((x - 25) / 12) ** 2)
for wind_from in (60, 120, 180):
    print(wind_from, solve(jet, 5.5, 0.3, 15, wind_from, 60, 5))
