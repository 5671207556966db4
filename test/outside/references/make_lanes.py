#!/usr/bin/env python3
"""Reference values for the way square in the traffic lanes, worked out apart from the program: python3 make_lanes.py > lanes.json

Lengths in nautical miles, speeds in knots, times in hours; x east, y north, on a flat sheet, from (0, 0). Streams set north, v(x, t);
the boat goes at one speed through the water. A lane is a strip between two straight edges that run along its flow, given by the flow's
bearing and where the edges cut y = 0 (x from, x until). Square is the flow's bearing + 90.

The order: heading h outside the lanes, square in each, the square heading kept from the first lane to the last. Each stretch is integrated
with scipy's DOP853 (rtol 1e-12, atol 1e-12) and ended by an event on the edge; h is the root (brentq, xtol 1e-13) of the miss off the
line where the boat comes abeam of the destination. `uniform` cases are also solved in closed form below, and the two must agree to 1e-9.

Departures: the instant at which the one heading that leads to the destination is the square one (brentq over both).
"""
import json
import math

from scipy.integrate import solve_ivp
from scipy.optimize import brentq

CASES = [
    {"id": "U1", "stream": {"kind": "uniform", "rate": 2.0}, "boat": 5.0, "to": [20.0, 3.0], "t0": 0.0,
     "lanes": [{"flow": 0.0, "from": 5.0, "until": 9.0}, {"flow": 180.0, "from": 11.0, "until": 15.0}]},
    {"id": "U2", "stream": {"kind": "uniform", "rate": 1.5}, "boat": 6.0, "to": [24.0, -2.0], "t0": 0.0,
     "lanes": [{"flow": 20.0, "from": 6.0, "until": 10.0}, {"flow": 200.0, "from": 12.0, "until": 16.0}]},
    {"id": "U3", "stream": {"kind": "uniform", "rate": -2.5}, "boat": 5.0, "to": [30.0, 0.0], "t0": 0.0,
     "lanes": [{"flow": 345.0, "from": 12.0, "until": 17.0}]},
    {"id": "J1", "stream": {"kind": "jet", "rate": 3.0, "axis": 10.0, "halfWidth": 6.0}, "boat": 5.0, "to": [20.0, 3.0], "t0": 0.0,
     "lanes": [{"flow": 0.0, "from": 5.0, "until": 9.0}, {"flow": 180.0, "from": 11.0, "until": 15.0}]},
    {"id": "J2", "stream": {"kind": "jet", "rate": 3.5, "axis": 20.0, "halfWidth": 9.0}, "boat": 5.5, "to": [40.0, 2.0], "t0": 0.0,
     "lanes": [{"flow": 12.0, "from": 14.0, "until": 18.0}, {"flow": 192.0, "from": 20.0, "until": 24.0}]},
    {"id": "T1", "stream": {"kind": "tide", "rate": 2.5, "period": 12.42}, "boat": 5.0, "to": [24.0, 0.0], "t0": 2.0,
     "lanes": [{"flow": 25.0, "from": 7.0, "until": 11.0}, {"flow": 205.0, "from": 13.0, "until": 17.0}]},
]


def stream(case):
    s = case["stream"]
    if s["kind"] == "uniform":
        return lambda x, t: s["rate"]
    if s["kind"] == "jet":
        return lambda x, t: s["rate"] * math.exp(-(((x - s["axis"]) / s["halfWidth"]) ** 2))
    return lambda x, t: s["rate"] * math.sin(2 * math.pi * t / s["period"])


def stretch(v, boat, heading, start, stop):
    """From (t, x, y) on a heading until stop(x, y) comes to nothing from below."""
    rad = math.radians(heading)
    vx, vy = boat * math.sin(rad), boat * math.cos(rad)
    event = lambda t, p: stop(p[0], p[1])
    event.terminal, event.direction = True, 1
    run = solve_ivp(lambda t, p: [vx, vy + v(p[0], t)], [start[0], start[0] + 100], start[1:], method="DOP853",
                    rtol=1e-12, atol=1e-12, events=event)
    return (run.t_events[0][0], *run.y_events[0][0])


def edge(flow, x0):
    """How far east (square) of the edge that runs along the flow through (x0, 0)."""
    rad = math.radians(flow)
    side = math.copysign(1, math.cos(rad))
    return lambda x, y: side * ((x - x0) * math.cos(rad) - y * math.sin(rad))


def square(lane):
    return lane["flow"] + (90 if math.cos(math.radians(lane["flow"])) > 0 else -90)


def root(miss, bearing):
    """The heading nearest to the bearing at which the miss changes sign; headings that never come abeam are passed over."""
    found, before = [], None
    for degrees in range(-80, 81, 4):
        try:
            here = (bearing + degrees, miss(bearing + degrees))
        except IndexError:
            before = None
            continue
        if before is not None and before[1] * here[1] < 0:
            found.append(brentq(miss, before[0], here[0], xtol=1e-13))
        before = here
    assert len(found) == 1, found
    return found[0]


def abeam(to):
    length = math.hypot(*to)
    return lambda x, y: (x * to[0] + y * to[1]) / length - length


def off(to, x, y):
    return (x * to[1] - y * to[0]) / math.hypot(*to)


def run(case, heading):
    v, boat, to, lanes = stream(case), case["boat"], case["to"], case["lanes"]
    places = [(case["t0"], 0.0, 0.0)]
    places.append(stretch(v, boat, heading, places[-1], edge(lanes[0]["flow"], lanes[0]["from"])))
    for i, lane in enumerate(lanes):
        places.append(stretch(v, boat, square(lane), places[-1], edge(lane["flow"], lane["until"])))
        if i + 1 < len(lanes):
            after = lanes[i + 1]
            places.append(stretch(v, boat, square(lane), places[-1], edge(after["flow"], after["from"])))
    places.append(stretch(v, boat, heading, places[-1], abeam(to)))
    return places


def one_heading(case, t0):
    v, boat, to = stream(case), case["boat"], case["to"]
    bearing = math.degrees(math.atan2(to[0], to[1]))
    miss = lambda h: off(to, *stretch(v, boat, h, (t0, 0.0, 0.0), abeam(to))[1:])
    return root(miss, bearing)


def closed(case):
    """Uniform stream w: in the lanes a drift that does not depend on h; outside a straight line. Entry by plane geometry, root in h."""
    w, boat, to, lanes = case["stream"]["rate"], case["boat"], case["to"], case["lanes"]

    def miss(heading):
        x = y = t = 0.0
        steer = heading
        marks = [(lanes[0], "from", heading)]
        for i, lane in enumerate(lanes):
            marks.append((lane, "until", square(lane)))
            if i + 1 < len(lanes):
                marks.append((lanes[i + 1], "from", square(lane)))
        for lane, which, steer in marks:
            rad, flow = math.radians(steer), math.radians(lane["flow"])
            ux, uy = boat * math.sin(rad), boat * math.cos(rad) + w
            dt = ((lane[which] - x) * math.cos(flow) + y * math.sin(flow)) / (ux * math.cos(flow) - uy * math.sin(flow))
            x, y, t = x + ux * dt, y + uy * dt, t + dt
        rad = math.radians(heading)
        ux, uy = boat * math.sin(rad), boat * math.cos(rad) + w
        length = math.hypot(*to)
        dt = (length - (x * to[0] + y * to[1]) / length) / ((ux * to[0] + uy * to[1]) / length)
        return off(to, x + ux * dt, y + uy * dt), t + dt

    bearing = math.degrees(math.atan2(to[0], to[1]))
    heading = root(lambda h: miss(h)[0], bearing)
    return heading, miss(heading)[1]


answers = []
for case in CASES:
    bearing = math.degrees(math.atan2(case["to"][0], case["to"][1]))
    heading = root(lambda h: off(case["to"], *run(case, h)[-1][1:]), bearing)
    places = run(case, heading)
    if case["stream"]["kind"] == "uniform":
        other = closed(case)
        assert abs(other[0] - heading) < 1e-9 and abs(other[1] - places[-1][0]) < 1e-9, (case["id"], other, heading)
    alone = one_heading(case, case["t0"])
    answers.append({**case, "headingOutside": heading, "squareHeading": square(case["lanes"][0]) % 360,
                    "lanesFrom": list(places[1]), "lanesUntil": list(places[-2]),
                    "hours": places[-1][0] - case["t0"], "oneHeading": alone,
                    "oneHeadingOffSquare": abs((alone - square(case["lanes"][0]) + 180) % 360 - 180)})

TIDE = {"stream": {"kind": "tide", "rate": 2.5, "period": 12.42}, "boat": 5.0, "to": [24.0, 0.0],
        "lanes": [{"flow": 12.0, "from": 7.0, "until": 11.0}, {"flow": 192.0, "from": 13.0, "until": 17.0}]}
grid = [t / 2 for t in range(0, 49)]
alone = [one_heading(TIDE, t) for t in grid]


def instants(wanted):
    """When the one heading is just so, between 0 and 24 h."""
    f = lambda t: one_heading(TIDE, t) - wanted
    return [brentq(f, a, b, xtol=1e-10) for a, b, ha, hb in zip(grid, grid[1:], alone, alone[1:]) if (ha - wanted) * (hb - wanted) < 0]


squares = instants(square(TIDE["lanes"][0]))
within = sorted(instants(square(TIDE["lanes"][0]) + 10) + instants(square(TIDE["lanes"][0]) - 10))
print(json.dumps({"squareInLanes": answers, "departures": {**TIDE, "squareAt": squares, "tenDegreesOffAt": within}}, indent=1))
