"""Independent reference values for gates run as a chain: writes gates.json beside this file.
Run: python3 make_gates.py (Python 3.11, standard library only; a few seconds; no other input).
Time is a grid of half minutes, and everything is tried: from every instant at which a gate can be reached every wait in half minutes up to
the longest is taken, and kept where each of the gate's conditions, asked by the local clock through datetime, says that it is open then.
No intervals are worked with. Of all that comes through, the earliest passing of the last gate is taken, and backward each gate is
reached as early as serves. The open water is still: 36 nm at 6 kn are 360 minutes. A cure by leaving is the first N of 1, 2, ... 1440 minutes
with which all is run anew and passes; by speed the first whole percent, by waiting off the entrance the first whole minute.
Nothing here was made with the program under test.
"""
import json
from datetime import datetime, timedelta, timezone
from pathlib import Path

TICK = 30
OPEN_WATER_MIN = 360.0

def utc(text): return datetime.fromisoformat(text).replace(tzinfo=timezone.utc).timestamp()
def iso(at): return datetime.fromtimestamp(at, timezone.utc).isoformat().replace("+00:00", "Z")
def local(at, hours): return datetime.fromtimestamp(at, timezone(timedelta(hours=hours)))
def clock_minutes(at, hours):
    here = local(at, hours)
    return here.hour * 60 + here.minute + here.second / 60

def around(times, before_min, after_min):
    return lambda at: any(t - before_min * 60 <= at <= t + after_min * 60 for t in times)
def every_half_hour(zone, first_min, last_min):
    return lambda at: clock_minutes(at, zone) % 30 == 0 and first_min <= clock_minutes(at, zone) <= last_min
def office_hours(zone, spells, weekdays, holidays):
    def is_open(at):
        here = local(at, zone)
        if here.date().isoformat() in holidays or here.isoweekday() not in weekdays: return False
        return any(a <= clock_minutes(at, zone) <= b for a, b in spells)
    return is_open
def notice(hours, least_min, most_min):
    def can_be_told(arrival):
        told = arrival - most_min * 60
        while told <= arrival - least_min * 60:
            if hours(told): return True
            told += TICK
        return False
    return can_be_told

def leaves(reached, wait_min, is_open):
    found = set()
    for a in reached:
        tries = {a}
        at = (int(a // TICK) + 1) * TICK
        while at <= a + wait_min * 60:
            tries.add(float(at)); at += TICK
        found |= {t for t in tries if is_open(t)}
    return found

def chain(start, gates):
    steps, out, before = [], {start}, 0.0
    for gate in gates:
        reached = {s + (gate["afterMin"] - before) * 60 for s in out}
        passes = leaves(reached, gate["waitMin"], gate["open"])
        if not passes: return steps, (gate, reached)
        steps.append((gate, reached, passes)); out = passes; before = gate["afterMin"]
    return steps, None

def schedule(steps):
    rows, pass_at = [], min(steps[-1][2]) if steps else None
    for k in range(len(steps) - 1, -1, -1):
        gate, reached, _ = steps[k]
        at = min(a for a in reached if a <= pass_at <= a + gate["waitMin"] * 60)
        rows.insert(0, {"name": gate["name"], "reachedAt": iso(at), "passedAt": iso(pass_at)})
        if k > 0: pass_at = at - (gate["afterMin"] - steps[k - 1][0]["afterMin"]) * 60
    return rows

def waited(steps):
    """Minutes waited afloat: an office holds nobody up."""
    rows = schedule(steps)
    return sum((utc(r["passedAt"][:-1]) - utc(r["reachedAt"][:-1])) / 60 for r, s in zip(rows, steps) if not s[0].get("office"))

def go(case, depart, speed=1.0, lie_min=0):
    out_steps, out_miss = chain(depart, case["out"])
    if out_miss: return out_steps, out_miss, [], None, None
    open_from = depart + (case["outMin"] + waited(out_steps)) * 60
    entrance = open_from + OPEN_WATER_MIN / speed * 60 + lie_min * 60
    in_steps, in_miss = chain(entrance, case["in"])
    berth = entrance + (case["inMin"] + waited(in_steps)) * 60
    return out_steps, out_miss, in_steps, in_miss, berth
def passes(case, depart, speed=1.0, lie_min=0):
    _, a, _, b, _ = go(case, depart, speed, lie_min)
    return a is None and b is None

def first(tries, holds): return next((n for n in tries if holds(n)), None)

def missed(miss):
    gate, reached = miss
    at, latest = min(reached), max(reached) + gate["waitMin"] * 60
    back = first(range(0, 2 * 2880), lambda n: gate["open"]((at // TICK) * TICK - n * TICK))
    on = first(range(0, 7 * 2880), lambda n: gate["open"](-(-at // TICK) * TICK + n * TICK))
    late = None if back is None else (at - ((at // TICK) * TICK - back * TICK)) / 60
    early = None if on is None else (-(-at // TICK) * TICK + on * TICK - latest) / 60
    return {"name": gate["name"], "reachedAt": iso(at), "lateMin": late, "earlyMin": early}

def answer(case, depart_text):
    depart = utc(depart_text)
    out_steps, out_miss, in_steps, in_miss, berth = go(case, depart)
    miss = out_miss or in_miss
    result = {"departAt": iso(depart), "passed": schedule(out_steps) + schedule(in_steps), "missed": missed(miss) if miss else None,
              "berthAt": iso(berth) if miss is None else None, "cures": None}
    if miss:
        day = range(1, 1441)
        cures = {"leaveEarlierMin": first(day, lambda n: passes(case, depart - n * 60)),
                 "leaveLaterMin": first(day, lambda n: passes(case, depart + n * 60))}
        if out_miss is None:
            cures["fasterPercent"] = first(range(101, 111), lambda p: passes(case, depart, p / 100))
            cures["slowerPercent"] = first(range(99, 49, -1), lambda p: passes(case, depart, p / 100))
            cures["lieOffMin"] = first(day, lambda n: passes(case, depart, 1.0, n))
        result["cures"] = cures
    return result

HIGH = [utc("2026-06-04T14:30"), utc("2026-06-05T02:55"), utc("2026-06-05T15:20")]
CHAIN = {"outMin": 0, "inMin": 30, "out": [], "in": [
    {"name": "the bar", "afterMin": 0, "waitMin": 180, "open": around(HIGH, 120, 60)},
    {"name": "the bridge", "afterMin": 15.5, "waitMin": 10, "open": every_half_hour(-3, 7 * 60, 19 * 60)},
    {"name": "the office", "afterMin": 40, "waitMin": 120, "office": True,
     "open": office_hours(-3, [(540, 720), (810, 1020)], range(1, 8), [])},
]}
HOURS = office_hours(14, [(480, 960)], range(1, 6), ["2026-06-05"])
def zones(wait_min):
    return {"outMin": 0, "inMin": 30, "out": [], "in": [
        {"name": "notice to the office", "afterMin": 30, "waitMin": 0, "open": notice(HOURS, 24 * 60, 72 * 60)},
        {"name": "the office", "afterMin": 50, "waitMin": wait_min, "office": True, "open": HOURS},
    ]}
INLET_HIGH = [utc("2026-06-03T21:35"), utc("2026-06-04T10:00"), utc("2026-06-04T22:25"), utc("2026-06-05T10:50")]
INLET = {"outMin": 15, "inMin": 30, "in": [], "out": [
    {"name": "the inlet", "afterMin": 15, "waitMin": 0, "open": around(INLET_HIGH, 90, 90)},
]}

def main():
    made = {
        "chain": [answer(CHAIN, at) for at in ["2026-06-04T06:12", "2026-06-04T09:14", "2026-06-04T09:22", "2026-06-04T08:45"]],
        "zonesNoWait": [answer(zones(0), at) for at in ["2026-06-04T13:30:30", "2026-06-03T15:30:30"]],
        "zonesWait": [answer(zones(4 * 1440), at) for at in ["2026-06-04T13:30:30"]],
        "inlet": [answer(INLET, at) for at in ["2026-06-04T05:45:30", "2026-06-04T08:15:30"]],
    }
    Path(__file__).with_name("gates.json").write_text(json.dumps(made, indent=2) + "\n")

main()
