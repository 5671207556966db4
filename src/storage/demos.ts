import { fileURLToPath } from "node:url";

/** A demo that ships: an invented passage with its files, in a folder of the package beside `dist` and `src`. */
export interface Demo {
  /** What it is called after `--demo`. */
  readonly name: string;
  /** Its passage's id in every library. */
  readonly id: string;
  /** Its passage file. */
  readonly path: string;
}

/** The demo that is meant where none is named. */
export const FIRST_DEMO: Demo = {
  name: "morrel",
  id: "demo",
  path: fileURLToPath(new URL("../../demo/morrel/passage.yaml", import.meta.url)),
};

/** Every demo, the first first. */
export const DEMOS: readonly Demo[] = [
  FIRST_DEMO,
  { name: "averil", id: "demo-averil", path: fileURLToPath(new URL("../../demo/averil/passage.yaml", import.meta.url)) },
];

/** The demo of a name; null where there is none. */
export function demoNamed(name: string): Demo | null {
  return DEMOS.find((one) => one.name === name) ?? null;
}
