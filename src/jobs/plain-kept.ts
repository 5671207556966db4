import type { Plane } from "../core/earth/index.ts";

/** Stands for the passage's plane in what crosses from one thread to another: a plane has functions, and each thread lays its own. */
const PLANE = "athwart:plane";

/** What was run on a plane, as plain data that may cross to another thread. Throws on a function other than the plane's. */
export function plainOf(value: unknown, plane: Plane): unknown {
  return replaced(value, (one) => (one === plane ? PLANE : undefined), new Map());
}

/** What came from another thread, on this one's plane. */
export function onPlaneAgain(data: unknown, plane: Plane): unknown {
  return replaced(data, (one) => (one === PLANE ? plane : undefined), new Map());
}

/** A copy of plain data with some values replaced: what is one object stays one, and arrays of numbers are not copied. */
function replaced(value: unknown, replace: (value: unknown) => unknown, met: Map<object, unknown>): unknown {
  const other = replace(value);
  if (other !== undefined) return other;
  if (typeof value === "function") throw new Error("what crosses between threads must be plain data, and has a function in it");
  if (typeof value !== "object" || value === null || ArrayBuffer.isView(value)) return value;
  const known = met.get(value);
  if (known !== undefined) return known;
  if (Array.isArray(value)) {
    const list: unknown[] = [];
    met.set(value, list);
    for (const one of value) list.push(replaced(one, replace, met));
    return list;
  }
  const made: Record<string, unknown> = {};
  met.set(value, made);
  for (const [key, one] of Object.entries(value)) made[key] = replaced(one, replace, met);
  return made;
}
