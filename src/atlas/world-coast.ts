import { readFileSync } from "node:fs";
import { type Coast, openCoast } from "./coast.ts";

/** Reads the coastline that ships from the disk. */
export function readWorldCoast(): Coast {
  return openCoast(readFileSync(new URL("./data/coast.bin", import.meta.url)));
}
