import type { CoastFacts } from "../core/coast/index.ts";

/** What is to be known of the coastline that ships, for the assumptions of an answer. */
export const COAST_FACTS: CoastFacts = {
  name: "GSHHG 2.3.7, high resolution",
  /** When the set was made; the surveys in it are older, many of them by decades. */
  madeOn: "2017-06-15",
  /** From the same set's full resolution, 1490 points of it the world over: scripts/atlas/measure-coast.mjs gives them. */
  medianErrorMetres: 42,
  ninetiethErrorMetres: 139,
  licence: "LGPL-3.0-or-later",
};
