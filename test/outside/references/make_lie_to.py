"""
Standing off with drift, apart from the program: a boat on a straight run in still or uniform water heaves to five miles off, drifts with
the current and 4 % of the wind over the water, 48 degrees off down-wind, and lets draw so as to arrive at a given hour.
Plane, miles and knots; x east, y north. scipy's brentq on the time of letting draw; closed-form runs. Run: python3 make_lie_to.py > lie-to.json
"""
import json
from math import atan2, cos, degrees, hypot, radians, sin, sqrt
from scipy.optimize import brentq

SHARE, OFF, STAND_OFF = 0.04, 48.0, 5.0


def time_to(dx, dy, speed, u, v):
    """Hours of the straight run of a boat over (dx, dy) in a uniform current: |d - w t| = S t."""
    a = speed**2 - u * u - v * v
    b = dx * u + dy * v
    return (-b + sqrt(b * b + a * (dx * dx + dy * dy))) / a


def case(name, to, speed, current, wind_kn, wind_from, arrive, tack):
    u, v = current
    total = time_to(*to, speed, u, v)
    # One heading in uniform water makes good a straight line at an even rate.
    length = hypot(*to)
    t0 = total * (1 - STAND_OFF / length)
    x0, y0 = to[0] * t0 / total, to[1] * t0 / total
    # Wind over the water: the air's way less the water's.
    ax = -wind_kn * sin(radians(wind_from)) - u
    ay = -wind_kn * cos(radians(wind_from)) - v
    strength, toward = hypot(ax, ay), degrees(atan2(ax, ay))
    side = OFF if tack == "starboard" else -OFF
    lx = SHARE * strength * sin(radians(toward + side)) + u
    ly = SHARE * strength * cos(radians(toward + side)) + v

    def late(draw):
        x, y = x0 + lx * (draw - t0), y0 + ly * (draw - t0)
        return draw + time_to(to[0] - x, to[1] - y, speed, u, v) - arrive

    draw = brentq(late, t0, arrive, xtol=1e-12)
    drift = draw - t0
    return {
        "name": name, "toNm": list(to), "boatKn": speed, "currentKn": list(current), "windKn": wind_kn, "windFromDegTrue": wind_from,
        "arriveHours": arrive, "tack": tack, "plannedHours": total, "heaveToHours": t0, "fromNm": [x0, y0],
        "drawHours": draw, "untilNm": [x0 + lx * drift, y0 + ly * drift], "driftNm": hypot(lx, ly) * drift,
        "driftTowardDegTrue": degrees(atan2(lx, ly)) % 360,
    }


print(json.dumps([
    case("still water, wind astern", (40.0, 0.0), 5.0, (0.0, 0.0), 15.0, 270.0, 13.5, "port"),
    case("still water, wind ahead", (40.0, 0.0), 5.0, (0.0, 0.0), 20.0, 90.0, 13.5, "starboard"),
    case("a current across, wind across", (40.0, 10.0), 5.5, (0.0, 1.2), 18.0, 0.0, 12.0, "starboard"),
    case("a current across, the other tack", (40.0, 10.0), 5.5, (0.0, 1.2), 18.0, 0.0, 12.0, "port"),
    case("a long night in a foul current", (30.0, 0.0), 6.0, (-0.8, 0.3), 25.0, 200.0, 17.0, "starboard"),
], indent=1))
