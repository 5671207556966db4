import type { BoardTold, LimitTold } from "../../api/index.ts";
import { FELT_ALONG, FELT_ONCE, type Felt } from "../../core/window/index.ts";
import { limitsToSet, type PassageDocument } from "../../formats/passage/index.ts";
import { feltName, LIMIT_NAMES } from "../../words/index.ts";

/** The keys under `eyeball`, which is two limits in one. */
const EYEBALL: Partial<Readonly<Record<Felt, string>>> = {
  eyeballSunAltitudeDeg: "eyeball.sunAltitude",
  sunOffBowDeg: "eyeball.sunOffBow",
};

/** Limits and speed as they stand in the passage's text, for changing them there, and the limits that might be set. */
export function typedFigures({ data, passage }: PassageDocument): Pick<BoardTold, "limits" | "toSet" | "speed"> {
  const limits = passage.limits.flatMap(({ felt }): LimitTold[] => {
    const key = EYEBALL[felt] ?? LIMIT_NAMES[felt];
    const typed = at(data.limits, key.split("."));
    const [happy, never] = [at(typed, ["happy"]), at(typed, ["never"])];
    return typeof happy === "string" && typeof never === "string" ? [{ key, name: feltName(felt), happy, never }] : [];
  });
  const speed = data.boat.power?.speed;
  const toSet = limitsToSet(data).map(({ name, happy, never }) => ({ key: name, name: nameOf(name), happy, never }));
  return { limits, toSet, speed: typeof speed === "string" ? { value: speed, key: "boat.power.speed" } : null };
}

function nameOf(key: string): string {
  const felt = [...FELT_ALONG, ...FELT_ONCE].find((one) => LIMIT_NAMES[one] === key);
  if (felt === undefined) throw new Error(`nothing is felt by the limit ${key}`);
  return feltName(felt);
}

function at(value: unknown, keys: readonly string[]): unknown {
  let here = value;
  for (const key of keys)
    here = typeof here === "object" && here !== null ? Object.entries(here).find(([name]) => name === key)?.[1] : undefined;
  return here;
}
