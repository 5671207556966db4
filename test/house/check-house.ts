import { isBuiltin } from "node:module";
import { posix } from "node:path";
import { cyclesOf } from "./cycles.ts";
import {
  entryRooms,
  heavyPackages,
  isAmong,
  isKnown,
  mayComputeImports,
  mayImport,
  packagePlaces,
  roomOf,
  roomsWithoutNode,
} from "./layers.ts";
import { type ImportFact, readSource, type SourceFacts } from "./read-source.ts";
import type { Sources } from "./source-files.ts";

export interface Breach {
  readonly rule:
    | "unreadable"
    | "outside any room"
    | "unknown room"
    | "layer"
    | "not by index"
    | "index of its own room"
    | "no such file"
    | "outside src"
    | "computed import"
    | "cycle"
    | "unknown package"
    | "package out of place"
    | "Node in a pure room"
    | "impure core"
    | "heavy at load"
    | "no index"
    | "no opening paragraph";
  readonly where: string;
  readonly what: string;
}

/** What the rules were held against, so that a checker that saw nothing can't pass. */
export interface HouseCheck {
  readonly breaches: readonly Breach[];
  readonly files: readonly string[];
  readonly importCount: number;
}

const leastOpeningLength = 80;

/**
 * Holds every file to the house's rules.
 *
 * `packages` are the names in package.json's dependencies.
 */
export function checkHouse(sources: Sources, packages: readonly string[]): HouseCheck {
  const breaches: Breach[] = [];
  const facts = new Map([...sources].map(([path, text]) => [path, readSource(path, text)]));
  const links = new Map<string, { to: string; fact: ImportFact }[]>();
  for (const [path, file] of facts) {
    const room = roomOf(path);
    const say = (rule: Breach["rule"], what: string, line?: number): void => {
      breaches.push({ rule, where: line === undefined ? path : `${path}:${line}`, what });
    };
    for (const error of file.parseErrors) say("unreadable", error);
    if (room === null) say("outside any room", "a file lies in a room's folder");
    else if (!isKnown(room)) say("unknown room", room);
    if (path.startsWith("src/core/")) for (const { what, line } of file.impure) say("impure core", what, line);
    for (const { how, line } of mayComputeImports.has(path) ? [] : file.computedImports)
      say("computed import", `${how} of something reckoned at run time`, line);
    const own: { to: string; fact: ImportFact }[] = [];
    links.set(path, own);
    for (const fact of file.imports) {
      if (/^\.{1,2}(\/|$)/.test(fact.specifier) || fact.how === "new URL") {
        const to = targetOf(path, fact, facts, say);
        if (to === null) continue;
        own.push({ to, fact });
        checkInside(path, room, to, fact, say);
      } else {
        checkPackage(room, fact, packages, say);
      }
    }
  }
  checkIndexes(facts, links, breaches);
  const graph = new Map([...links].map(([path, own]) => [path, own.map((link) => link.to)]));
  for (const cycle of cyclesOf(graph)) breaches.push({ rule: "cycle", where: cycle[0] ?? "", what: [...cycle, cycle[0]].join(" → ") });
  const importCount = [...facts.values()].reduce((sum, file) => sum + file.imports.length, 0);
  return { breaches, files: [...facts.keys()], importCount };
}

type Say = (rule: Breach["rule"], what: string, line?: number) => void;

/** The file in src that an import reaches; null when it reaches none (said, unless an asset may lie outside). */
function targetOf(path: string, fact: ImportFact, facts: ReadonlyMap<string, SourceFacts>, say: Say): string | null {
  const to = posix.join(posix.dirname(path), fact.specifier);
  const isAddress = fact.how === "new URL" || fact.how === "import.meta.resolve";
  if (!to.startsWith("src/")) {
    if (!isAddress || path.startsWith("src/core/")) say("outside src", fact.specifier, fact.line);
    return null;
  }
  if (facts.has(to)) return to;
  const compiledFrom = [to.replace(/\.js$/, ".ts"), to.replace(/\.js$/, ".tsx")].find((one) => facts.has(one));
  if (isAddress && compiledFrom !== undefined) return compiledFrom;
  if (isAddress && !/\.[jt]sx?$/.test(to)) return null;
  say("no such file", fact.specifier, fact.line);
  return null;
}

function checkInside(path: string, room: string | null, to: string, fact: ImportFact, say: Say): void {
  const target = roomOf(to);
  if (room === null || target === null) return;
  if (room === target) {
    if (posix.basename(to) === "index.ts" && posix.dirname(to) === `src/${room}` && path !== to)
      say("index of its own room", fact.specifier, fact.line);
    return;
  }
  if (!mayImport(room, target)) say("layer", `${room} imports ${target}`, fact.line);
  if (to !== `src/${target}/index.ts`) say("not by index", `${fact.specifier} is inside ${target}`, fact.line);
}

function checkPackage(room: string | null, fact: ImportFact, packages: readonly string[], say: Say): void {
  if (fact.how === "require") say("computed import", `require("${fact.specifier}")`, fact.line);
  if (isBuiltin(fact.specifier)) {
    if (room !== null && isAmong(room, roomsWithoutNode)) say("Node in a pure room", fact.specifier, fact.line);
    return;
  }
  const [first = "", second = ""] = fact.specifier.split("/");
  const name = first.startsWith("@") ? `${first}/${second}` : first;
  if (!packages.includes(name)) say("unknown package", name, fact.line);
  const places = packagePlaces[name];
  if (places !== undefined && room !== null && !isAmong(room, places)) say("package out of place", `${name} in ${room}`, fact.line);
}

/** Every room has an index.ts that opens with its paragraph and, loaded, pulls in nothing heavy. */
function checkIndexes(
  facts: ReadonlyMap<string, SourceFacts>,
  links: ReadonlyMap<string, readonly { to: string; fact: ImportFact }[]>,
  breaches: Breach[],
): void {
  const rooms = new Set([...facts.keys()].map(roomOf).filter((room) => room !== null));
  for (const room of rooms) {
    const index = `src/${room}/index.ts`;
    const file = facts.get(index);
    const onlyAmbient = [...facts.keys()].filter((path) => roomOf(path) === room).every((path) => path.endsWith(".d.ts"));
    if (file === undefined) {
      if (!entryRooms.includes(room) && !onlyAmbient) breaches.push({ rule: "no index", where: index, what: `${room} has no index.ts` });
      continue;
    }
    if ((file.opening ?? "").length < leastOpeningLength) {
      breaches.push({ rule: "no opening paragraph", where: index, what: "say what belongs here, its units, its senses" });
    }
    const reached = new Set([index]);
    for (const path of reached) {
      for (const fact of facts.get(path)?.imports ?? []) {
        if (fact.erased || !fact.atLoad) continue;
        if (heavyPackages.some((heavy) => heavy.test(fact.specifier))) {
          breaches.push({ rule: "heavy at load", where: `${path}:${fact.line}`, what: `${index} reaches ${fact.specifier}` });
        }
      }
      for (const { to, fact } of links.get(path) ?? []) if (!fact.erased && fact.atLoad) reached.add(to);
    }
  }
}
