# Reads and packs GRIB with ecCodes in one process, so that its decoding alone is timed. A request a line as JSON, an answer a line.
import json
import sys
import time

import eccodes as ec

MISSING = 1e33


def read(path):
    with open(path, "rb") as file:
        return file.read()


def repack(request):
    """The message with keys set and its values packed anew; what of the keys ecCodes then says."""
    handle = ec.codes_new_from_message(read(request["from"]))
    values = ec.codes_get_values(handle)
    for key, value in request["set"].items():
        ec.codes_set(handle, key, value)
    ec.codes_set_values(handle, values)
    with open(request["to"], "wb") as file:
        file.write(ec.codes_get_message(handle))
    said = {key: ec.codes_get(handle, key) for key in request["set"]}
    ec.codes_release(handle)
    return {"said": said}


def decode(request):
    """Seconds of `codes_get_values`, each time of a fresh handle, which holds no values yet."""
    message = read(request["from"])
    seconds = []
    for _ in range(request["repeats"]):
        handle = ec.codes_new_from_message(message)
        ec.codes_set(handle, "missingValue", MISSING)
        start = time.perf_counter()
        values = ec.codes_get_values(handle)
        seconds.append(time.perf_counter() - start)
        ec.codes_release(handle)
    if "valuesTo" in request:
        values.tofile(request["valuesTo"])
    return {"seconds": seconds}


WORK = {"repack": repack, "decode": decode, "version": lambda _: {"version": ec.codes_get_api_version()}}

for line in sys.stdin:
    asked = json.loads(line)
    try:
        answer = WORK[asked["do"]](asked)
    except Exception as error:
        answer = {"error": f"{type(error).__name__}: {error}"}
    print(json.dumps(answer), flush=True)
