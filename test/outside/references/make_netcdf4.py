"""Reference figures for the real NetCDF-4 files that test/outside/netcdf4-real.test.ts reads: writes netcdf4.json beside this file.
Run: python3 make_netcdf4.py DATA_FOLDER (Python 3.11, netCDF4 1.6.2 on netCDF-C 4.9.0 and HDF5 1.10.8, numpy 1.24; some seconds).
Of each file that begins with HDF5's signature: its dimensions [name, length, 1 for a record dimension], its attributes, and of each variable
of numbers or characters, in the file's order: type, dimensions, attributes, CRC-32 (zlib) of all values as stored, least byte first; and of
the values as netCDF4-python unpacks and masks them, in double precision: how many are masked or not finite, the sum (math.fsum), least and
greatest of the others, null where there are none. Attributes of numbers are lists. Nothing here was made with the program under test.
"""
import json, math, sys, warnings, zlib
from pathlib import Path
import netCDF4, numpy as np

data = Path(sys.argv[1])
warnings.simplefilter("ignore")


def number(value):
    return float(value) if math.isfinite(value) else str(float(value))


def attributes(of):
    values = {name: of.getncattr(name) for name in of.ncattrs()}
    return {name: value if isinstance(value, str) else [number(one) for one in np.atleast_1d(value)] for name, value in values.items()}


def figures(variable):
    variable.set_auto_maskandscale(False)
    stored = np.ascontiguousarray(variable[...])
    out = {
        "type": variable.dtype.newbyteorder("=").name,
        "dimensions": list(variable.dimensions),
        "attributes": attributes(variable),
        "crc32": zlib.crc32(stored.astype(stored.dtype.newbyteorder("<")).tobytes()),
    }
    if variable.dtype.kind == "S":
        return out
    variable.set_auto_maskandscale(True)
    values = np.ma.filled(np.ma.asarray(variable[...]).astype("f8"), np.nan).ravel()
    there = values[np.isfinite(values)]
    out |= {"missing": int(values.size - there.size), "sum": math.fsum(there) if there.size else None}
    return out | ({"least": there.min(), "greatest": there.max()} if there.size else {"least": None, "greatest": None})


out = {}
for path in sorted(data.rglob("*.nc")):
    with open(path, "rb") as opened:
        if opened.read(8) != b"\x89HDF\r\n\x1a\n":
            continue
    file = netCDF4.Dataset(path)
    out[str(path.relative_to(data))] = {
        "dimensions": [[name, len(one), int(one.isunlimited())] for name, one in file.dimensions.items()],
        "attributes": attributes(file),
        "variables": {name: figures(one) for name, one in file.variables.items() if one.dtype is not str},
    }
lines = [f"{json.dumps(name)}: {json.dumps(one)}" for name, one in out.items()]
Path(__file__).with_name("netcdf4.json").write_text("{\n" + ",\n".join(lines) + "\n}\n")
