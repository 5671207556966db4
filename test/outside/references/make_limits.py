"""Independent reference values for limits, time in hand and fuel: writes limits.json beside this file.
Run: python3 make_limits.py (Python 3.11, standard library only; a second).
Times are hours after midnight UTC of Thursday 4 June 2026; speeds knots, distances nautical miles, fuel litres.
shift: a boat of S kn makes D nm due west in a uniform stream of W kn to the north; wind of the step's worse end holds from the step's
first minute. hand: still water, a steady wind, and a front; each thing that may go wrong is tried minute by minute until the arrival
slips past the front. eyeball: the sun by Meeus, Astronomical Algorithms (2nd ed. 1998), ch. 25 (low accuracy, 0.01 degree), ch. 12
(sidereal time) and ch. 13 (horizontal coordinates), minute by minute along the leg in. fuel: the triangle of velocities for a uniform
stream, both ways, and the arc of a parallel on WGS84. Nothing here was made with the program under test.
"""
import json, math
from pathlib import Path

rad, deg = math.radians, math.degrees
THURSDAY = 1780531200

def triangle(speed, set_deg, rate, track_deg):
    """Speed over the ground along a track held through a uniform stream."""
    along = rate * math.cos(rad(set_deg - track_deg))
    across = rate * math.sin(rad(set_deg - track_deg))
    return math.sqrt(speed ** 2 - across ** 2) + along

def shift():
    speed, rate, miles, never, wind_before, wind_after = 6.0, 2.5, 24.0, 40.0, 12.0, 20.0
    takes = miles / triangle(speed, 0, rate, 270)
    shift_step = (9.0, 12.0)  # the step in which the wind turns from south to north
    cases = []
    for depart in (3.0, 4.0, 7.5):
        arrive = depart + takes
        met = arrive > shift_step[0]
        product = wind_after * rate if met else 0.0
        cases.append({"departH": depart, "arriveH": arrive, "productKn2": product, "margin": min((never - product) / never, 1.0),
                      "firstPastNeverH": max(depart, shift_step[0]) if met else None})
    return {"cases": cases, "lastOpenDepartureH": shift_step[0] - takes}

def sun(unix, lat, lon):
    jd = unix / 86400 + 2440587.5 + 69.2 / 86400  # dynamical time: 69.2 s ahead in 2026
    t = (jd - 2451545) / 36525
    mean = 280.46646 + 36000.76983 * t + 0.0003032 * t * t
    anomaly = rad(357.52911 + 35999.05029 * t - 0.0001537 * t * t)
    centre = ((1.914602 - 0.004817 * t) * math.sin(anomaly) + (0.019993 - 0.000101 * t) * math.sin(2 * anomaly)
              + 0.000289 * math.sin(3 * anomaly))
    node = rad(125.04 - 1934.136 * t)
    longitude = rad(mean + centre - 0.00569 - 0.00478 * math.sin(node))
    obliquity = rad(23.4392911 - 0.0130042 * t + 0.00256 * math.cos(node))
    ra = math.atan2(math.cos(obliquity) * math.sin(longitude), math.cos(longitude))
    dec = math.asin(math.sin(obliquity) * math.sin(longitude))
    jd_ut = unix / 86400 + 2440587.5
    tu = (jd_ut - 2451545) / 36525
    sidereal = 280.46061837 + 360.98564736629 * (jd_ut - 2451545) + 0.000387933 * tu * tu
    hour = rad(sidereal + lon) - ra
    phi = rad(lat)
    altitude = math.asin(math.sin(phi) * math.sin(dec) + math.cos(phi) * math.cos(dec) * math.cos(hour))
    azimuth = math.atan2(math.sin(hour), math.cos(hour) * math.sin(phi) - math.tan(dec) * math.cos(phi)) + math.pi
    return deg(altitude), deg(azimuth) % 360

def eyeball():
    lat, lon, course, crossing, leg, overhead = 34.0, -41.0, 280.0, 6.0, 1.0, 60.0
    happy_high, never_high, happy_off, never_off = 30.0, 15.0, 60.0, 30.0
    def met(depart):
        low, off = 90.0, 180.0
        for minute in range(int(leg * 60) + 1):
            high, azimuth = sun(THURSDAY + (depart + crossing) * 3600 + minute * 60, lat, lon)
            low = min(low, high)
            if 0 < high <= overhead:
                off = min(off, abs((azimuth - course + 180) % 360 - 180))
        return low, off
    def margin(depart):
        low, off = met(depart)
        return (low - never_high) / (happy_high - never_high), (off - never_off) / (happy_off - never_off)
    cases = []
    for depart in range(2, 15):
        low, off = met(depart)
        high_margin, off_margin = margin(depart)
        cases.append({"departH": depart, "lowestSunDeg": low, "leastOffBowDeg": off, "closedBy":
                      None if min(high_margin, off_margin) >= 0 else "eyeballSunAltitudeDeg" if high_margin < off_margin else "sunOffBowDeg"})
    passable = [k / 60 for k in range(0, 15 * 60) if min(margin(k / 60)) >= 0]
    return {"cases": cases, "firstPassableH": passable[0], "lastPassableH": passable[-1]}

def hand():
    # Whole minutes: six hours under way, a front at 20:03.
    passage, front, wind, happy, never = 360, 20 * 60 + 3, 13.0, 15.0, 25.0
    latest, longest_stop, slowest_late = 24 * 60, 4 * 60, 90  # at 0.8 of the speed six hours become seven and a half
    cases = []
    for depart in (6 * 60, 10 * 60, 13 * 60):
        arrive = depart + passage
        later, stop, slower = (next((m for m in range(most + 1) if arrive + m > front), None)
                               for most in (latest, longest_stop, slowest_late))
        shut = [m for m in (later, stop, slower) if m is not None]
        cases.append({"departH": depart / 60, "margin": (never - wind) / (never - happy), "inHandMinutes": min(shut) - 1 if shut else None,
                      "doors": {"later": later is not None, "stop": stop is not None, "slower": slower is not None}})
    return {"cases": cases}

def fuel():
    speed, set_deg, rate, burn, usable = 6.0, 45.0, 1.5, 2.6, 40.0
    a, e2 = 6378137.0, 0.00669437999014
    parallel = lambda degrees: a / math.sqrt(1 - e2 * math.sin(rad(34)) ** 2) * math.cos(rad(34)) * rad(degrees) / 1852
    miles, out, into = parallel(0.724), parallel(0.1) / 5.0, parallel(0.04) / 4.0
    on_kn, back_kn = triangle(speed, set_deg, rate, 270), triangle(speed, set_deg, rate, 90)
    depart = 9.0
    opens = depart + out
    crossing = miles / on_kn
    engine = out + crossing + into
    worst = None
    for hour in range(math.floor(opens) + 1, math.ceil(opens + crossing)):
        gone = hour - opens
        back = gone * on_kn / back_kn
        if back > crossing - gone: continue
        litres = burn * (2 * out + gone + back)
        if worst is None or litres > worst["allLitres"]:
            worst = {"atH": hour, "backH": back, "allLitres": litres, "acrossNm": gone * on_kn}
    left = usable - burn * engine
    third = usable / 3
    return {"wholeNm": miles, "engineH": engine, "burntLitres": burn * engine, "leftLitres": left, "reserveLitres": third,
            "margin": (left - third) / third, "worstTurnBack": worst}

Path(__file__).with_name("limits.json").write_text(
    json.dumps({"shift": shift(), "hand": hand(), "eyeball": eyeball(), "fuel": fuel()}, indent=2) + "\n")
