"""Reference figures for the real NetCDF files that test/outside/netcdf-conventions.test.ts reads: writes netcdf-conventions.json beside this file.
Run: python3 make_netcdf_conventions.py DATA_FOLDER (Python 3.11, netCDF4 1.6.2 on netCDF-C 4.9.0, numpy 1.24; a second or two).
Values as netCDF4-python unpacks and masks them, in double precision from there on. Where components run along a grid they are turned by
closed formulas: polar stereographic and Lambert on the sphere (Snyder, USGS Professional Paper 1395, chapters 15 and 21: the meridian
leans by the longitude from the central one times the cone's constant, 1 and sin 63 degrees), ROMS by its own angle. ROMS components are
halved sums of the two faces of a cell, 0 on land (as ROMS's own uv_rotate does it); cells without faces on all sides are left out.
Per file and group: steps, first and last time (Unix seconds), how many node values are missing, the greatest speed, the sums of both
components over all that is not missing, and a few points [step, node, components], null for a missing one. Node numbers run row after row as
the grid is handed over (rows southernmost first on latitude and longitude grids). Nothing here was made with the program under test.
"""
import json, sys, warnings
from pathlib import Path
import netCDF4, numpy as np

data = Path(sys.argv[1])
out = {}


def opened(name):
    return netCDF4.Dataset(data / name)


def filled(variable):
    """Unpacked values in double precision, NaN where missing."""
    with warnings.catch_warnings(), np.errstate(invalid="ignore"):
        warnings.simplefilter("ignore")  # fills and ranges that don't fit the stored type: passed over, as they are by the library
        return np.ma.filled(np.ma.asarray(variable[...]).astype("f8"), np.nan)


def record(name, times, first, second=None, points=()):
    """first, second: [step, node]."""
    gone = np.isnan(first) if second is None else np.isnan(first) | np.isnan(second)
    parts = [first] if second is None else [first, second]
    parts = [np.where(gone, 0.0, one) for one in parts]
    size = np.abs(parts[0]) if second is None else np.hypot(*parts)
    out[name] = {
        "steps": len(times), "firstAt": int(times[0]), "lastAt": int(times[-1]), "nodes": int(first.shape[1]),
        "missing": int(gone.sum()), "greatest": float(size.max()), "sums": [float(one.sum()) for one in parts],
        "points": [[int(t), int(node), None if gone[t, node] else [float(one[t, node]) for one in parts]] for t, node in points],
    }


def hours(start, count):
    return [start + 3600 * k for k in range(count)]


def turned(u, v, angle):
    """Along the grid to east and north; angle: anticlockwise from true east to the grid's x, radians."""
    return u * np.cos(angle) - v * np.sin(angle), u * np.sin(angle) + v * np.cos(angle)


# ---- HF radar, cm/s; the day's file gives time's fill as 0, which is its first step's own value -------------------------------
NEW_YEAR_2019 = 1546300800
RADAR = "currents/hfradar-western-boundary-20190101/"
with opened(RADAR + "hfradar_24h.nc") as d:
    day = [filled(d[one])[:, 0].reshape(24, -1) / 100 for one in "uv"]
    record("hfradar_24h", hours(NEW_YEAR_2019, 24), *day, points=[(0, 12000), (0, 3140), (23, 3140)] + [(t, int(np.nanargmax(np.hypot(day[0][t], day[1][t])))) for t in (0, 12, 23)])
for hour in (0, 6, 12, 18):
    with opened(f"{RADAR}RU_MARA_20190101T{hour:02d}0000Z.nc") as d:
        one = [filled(d[name])[0, 0].reshape(1, -1) / 100 for name in "uv"]
        assert all(np.array_equal(a[0], b[hour], equal_nan=True) for a, b in zip(one, day))
        assert abs(float(d["time"][0]) - (4748 + hour / 24)) < 1e-9
        record(f"RU_MARA_{hour:02d}", [NEW_YEAR_2019 + 3600 * hour], *one, points=[(0, int(np.nanargmax(np.hypot(one[0][0], one[1][0]))))])

# ---- Arctic, polar stereographic, central meridian 58 E ------------------------------------------------------------------------
with opened("currents/arctic20_polarstereo_20160201-05.nc") as d:
    u, v = (filled(d[one])[:, 0].reshape(5, -1) for one in "uv")
    longitude = filled(d["longitude"]).ravel()
    times = d["time"][:].astype(int)
    places = [filled(d[one]).ravel() for one in ("latitude", "longitude")]
    record("arctic20", times, *turned(u, v, -np.radians(longitude - 58)), points=[(2, 20 * 91 + 30), (0, 0), (4, 50 * 91 + 5), (1, 4600)])
    out["arctic20"]["places"] = [[node, float(places[0][node]), float(places[1][node])] for node in (0, 1850, 4640)]

# ---- AROME, Lambert conformal, one standard parallel 63 N, central meridian 15 E -----------------------------------------------
with opened("wind/arome_metcoop_20160114_00-02Z.nc") as d:
    u, v = (filled(d[one]).reshape(3, -1) for one in ("x_wind_10m", "y_wind_10m"))
    longitude = filled(d["longitude"]).ravel()
    record("arome", d["time"][:].astype(int), *turned(u, v, -np.radians((longitude - 15) * np.sin(np.radians(63)))),
           points=[(0, 0), (1, 75 * 141 + 70), (2, 151 * 141 - 1)])


# ---- ROMS ------------------------------------------------------------------------------------------------------------------
def roms(name, file, take_u, take_v, points):
    with opened(file) as d:
        land = {one: filled(d["mask_" + one]) < 0.5 for one in ("rho", "u", "v")}
        u = np.where(land["u"], 0.0, take_u(d))
        v = np.where(land["v"], 0.0, take_v(d))
        rows, columns = land["rho"].shape
        last_row, last_column = min(rows - 1, v.shape[1] - 1), min(columns - 1, u.shape[2] - 1)
        rho = np.s_[1:last_row + 1, 1:last_column + 1]
        mid_u = (u[:, 1:last_row + 1, 0:last_column] + u[:, 1:last_row + 1, 1:last_column + 1]) / 2
        mid_v = (v[:, 0:last_row, 1:last_column + 1] + v[:, 1:last_row + 1, 1:last_column + 1]) / 2
        east, north = turned(mid_u, mid_v, filled(d["angle"])[rho])
        east[:, land["rho"][rho]] = north[:, land["rho"][rho]] = np.nan
        steps = east.shape[0]
        units = d["ocean_time"].units
        start = {"seconds since 1970-01-01 00:00:00": 0, "seconds since 2016-01-01 00:00:00": 1451606400}[units]
        record(name, d["ocean_time"][:].astype("i8") + start, east.reshape(steps, -1), north.reshape(steps, -1), points)
        out[name]["shape"] = list(east.shape[1:])
        out[name]["firstNode"] = [float(filled(d["lat_rho"])[1, 1]), float(filled(d["lon_rho"])[1, 1])]


roms("roms_nordic", "currents/roms_nordic_int16_20160202-04.nc", lambda d: filled(d["u"])[:, -1], lambda d: filled(d["v"])[:, -1],
     [(0, 0), (1, 310), (2, 599), (0, 450)])
roms("wcofs", "currents/wcofs_roms_curvilinear_20241017.nc", lambda d: filled(d["u_sur"]), lambda d: filled(d["v_sur"]),
     [(0, 0), (1, 700), (3, 1000), (2, 20)])

# ---- FVCOM triangles -----------------------------------------------------------------------------------------------------------
with opened("crossing-raccoon-strait/sfbofs_fvcom_20240523.nc") as d:
    written = [b"".join(row).decode() for row in np.ma.filled(d["Times"][:])]
    assert written[1].startswith("2024-05-23T01:00:00"), written
    times = hours(1716422400, 10)
    record("sfbofs current", times, filled(d["u"])[:, 0], filled(d["v"])[:, 0], [(0, 0), (5, 450), (9, 902)])
    record("sfbofs wind", times, filled(d["uwind_speed"]), filled(d["vwind_speed"]), [(0, 0), (9, 902)])
    corners = d["nv"][:, 450] - 1
    out["sfbofs current"]["triangle450"] = [[float(d["lat"][c]), float(d["lon"][c]) - 360] for c in corners]
    out["sfbofs current"]["centre450"] = [float(d["latc"][450]), float(d["lonc"][450]) - 360]

# ---- Ionian: the two components of a C grid in two files, along the grid; waves and wind on latitudes and longitudes ---------------
for letter, name in (("U", "vozocrtx"), ("V", "vomecrty")):
    with opened(f"overlap-ionian/test_{letter}_2020-01-04.nc") as d:
        values = filled(d[name])[0].reshape(1, -1)
        record("ionian " + letter, [1577880000], values, points=[(0, 0), (0, 1234), (0, 2499)])
        lat, lon = (np.radians(filled(d[one])) for one in ("nav_lat", "nav_lon"))
        # The bearing along a row at a node halfway between its neighbours, less 90: there the great circle of both has it.
        a, b = (25, 20), (25, 22)
        east = np.sin(lon[b] - lon[a]) * np.cos(lat[b])
        north = np.cos(lat[a]) * np.sin(lat[b]) - np.sin(lat[a]) * np.cos(lat[b]) * np.cos(lon[b] - lon[a])
        back = np.cos(lat[b]) * np.sin(lat[a]) - np.sin(lat[b]) * np.cos(lat[a]) * np.cos(lon[a] - lon[b])
        back_east = np.sin(lon[a] - lon[b]) * np.cos(lat[a])
        leaving, arriving = np.degrees(np.arctan2(east, north)), np.degrees(np.arctan2(-back_east, -back))
        out["ionian " + letter]["northDegTrueAt2521"] = float((leaving + arriving) / 2 - 90)
for name, file, parts, points in (("ionian wind", "wind", ("u10", "v10"), [(0, 0), (0, 315), (0, 599)]), ("ionian waves", "waves", ("mwp",), [(0, 0), (0, 80), (0, 164)])):
    with opened(f"overlap-ionian/test_{file}_2020-01-04.nc") as d:
        south_first = [filled(d[one])[::-1].reshape(1, -1) for one in parts]
        assert d["latitude"][0] > d["latitude"][-1] and int(d["time"][...]) == 1051968 and d["time"].units == "hours since 1900-01-01"
        record(name, [1578096000], *south_first, points=points)

lines = ",\n".join(f"  {json.dumps(name)}: {json.dumps(figures)}" for name, figures in out.items())
Path(__file__).with_name("netcdf-conventions.json").write_text("{\n" + lines + "\n}\n")
