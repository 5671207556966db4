import { type AtlasTold, readWorldTides } from "../atlas/index.ts";
import { type Issue, issue } from "../core/answers/index.ts";
import type { Passage } from "../core/plan/index.ts";
import { quoted } from "../core/units/index.ts";
import type { StatedTide } from "../core/water/index.ts";

/** So many stations of a name are told. */
const TOLD = 4;

/** The passage with the tide stations that ship filled in, where it names any; those that there are none of, or several, are issues. */
export function withTides(passage: Passage, issues: Issue[]): Passage {
  const { tides = [] } = passage;
  if (!tides.some(isShipped)) return passage;
  return { ...passage, tides: tides.map((tide, i) => filledIn(tide, `tides[${i}]`, issues)) };
}

const isShipped = ({ told }: StatedTide): boolean => (told.kind === "secondary" ? told.reference : told).kind === "shipped";

function filledIn(tide: StatedTide, path: string, issues: Issue[]): StatedTide {
  const { name, told } = tide;
  if (told.kind === "shipped") {
    const found = stationOf(told.stationId, `${path}.station`, issues);
    return found === null ? tide : { name, told: found };
  }
  if (told.kind !== "secondary" || told.reference.kind !== "shipped") return tide;
  const { stationId } = told.reference;
  const found = stationOf(stationId, `${path}.secondary.of`, issues);
  if (found === null) return tide;
  if (found.kind === "constants")
    return { name, told: { ...told, station: { ...told.station, referenceId: found.station.id }, reference: found } };
  issues.push(
    issue(`${path}.secondary.of`, "tide-reference-differs", `${found.station.name} is itself told from ${found.reference.station.name}`),
  );
  return tide;
}

function stationOf(text: string, path: string, issues: Issue[]): AtlasTold | null {
  const atlas = readWorldTides();
  const { stations, meant } = atlas.named(text);
  const [station] = stations;
  if (station !== undefined && stations.length === 1) return atlas.told(station.id);
  if (station === undefined) {
    const hint = meant === null ? "" : `; did you mean ${meant}?`;
    const whatToDo = "Look for it by position with athwart tide --near, which gives ids.";
    issues.push(issue(path, "tide-station-unknown", `${quoted(text)} is no tide's name here, and no tide station's${hint}`, whatToDo));
    return null;
  }
  const some = stations.slice(0, TOLD).map(({ id, name, region }) => `${region === "" ? name : `${name}, ${region}`} (${id})`);
  const more = stations.length > TOLD ? `; and ${stations.length - TOLD} more` : "";
  issues.push(issue(path, "tide-station-several", `${quoted(text)} may be ${some.join("; ")}${more}`, "Give the station's id."));
  return null;
}
