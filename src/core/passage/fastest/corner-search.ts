import { COVERED } from "../../fields/index.ts";
import type { RoughWay } from "./label-search.ts";
import type { LandAhead } from "./land-ahead.ts";
import { CORNER_OFF_METRES } from "./round-land.ts";
import type { SpeedOver } from "./speed-over.ts";
import type { WaterGrid } from "./water-grid.ts";

/** No more corners than these are joined, those nearest to the straight way first. */
export const MOST_CORNERS = 240;
/** Straight legs are timed in pieces of about this share of the line. */
const PIECE_SHARE = 1 / 32;

interface Place {
  readonly along: number;
  readonly port: number;
}

/**
 * Ways from corner to corner of the land by straight legs (Dijkstra on what can be seen from where): they find the gaps that are narrower
 * than a search's cells. Legs are held in the current at the middles of their pieces.
 */
export class CornerSearch {
  private readonly water: WaterGrid;
  private readonly boat: SpeedOver;
  private readonly land: LandAhead;
  private readonly lengthMetres: number;
  private readonly places: readonly Place[];
  /** 0 not looked yet, 1 clear, 2 across land. */
  private readonly sight: Uint8Array;

  constructor(water: WaterGrid, boat: SpeedOver, land: LandAhead, lengthMetres: number) {
    this.water = water;
    this.boat = boat;
    this.land = land;
    this.lengthMetres = lengthMetres;
    const start: Place = { along: 0, port: 0 };
    const end: Place = { along: lengthMetres, port: 0 };
    const reach = { along: Float64Array.of(-lengthMetres / 2, 1.5 * lengthMetres), port: Float64Array.of(-lengthMetres, lengthMetres) };
    const detour = ({ along, port }: Place): number => Math.hypot(along, port) + Math.hypot(lengthMetres - along, port);
    const corners = [...land.cornersAround([reach], CORNER_OFF_METRES)].sort((a, b) => detour(a) - detour(b));
    this.places = [start, end, ...corners.slice(0, MOST_CORNERS)];
    this.sight = new Uint8Array(this.places.length * this.places.length);
  }

  /** The earliest way from corner to corner, as a rough way; null where there is none. */
  search(departAt: number): RoughWay | null {
    const { places } = this;
    const seconds = new Float64Array(places.length).fill(Number.POSITIVE_INFINITY);
    const from = new Int32Array(places.length).fill(-1);
    const isSettled = new Uint8Array(places.length);
    seconds[0] = 0;
    for (;;) {
      let node = -1;
      for (let i = 0; i < places.length; i++) {
        if (isSettled[i] === 0 && (node < 0 || (seconds[i] as number) < (seconds[node] as number))) node = i;
      }
      if (node < 0 || seconds[node] === Number.POSITIVE_INFINITY) return null;
      if (node === 1) return this.wayTo(from, seconds);
      isSettled[node] = 1;
      for (let to = 1; to < places.length; to++) {
        if (isSettled[to] === 1 || !this.sees(node, to)) continue;
        const there = (seconds[node] as number) + this.legSeconds(node, to, departAt + (seconds[node] as number));
        if (there >= (seconds[to] as number)) continue;
        seconds[to] = there;
        from[to] = node;
      }
    }
  }

  private sees(a: number, b: number): boolean {
    const pair = Math.min(a, b) * this.places.length + Math.max(a, b);
    if (this.sight[pair] === 0) {
      const one = this.places[a] as Place;
      const other = this.places[b] as Place;
      this.sight[pair] = this.land.crosses(one.along, one.port, other.along, other.port) ? 2 : 1;
    }
    return this.sight[pair] === 1;
  }

  private legSeconds(a: number, b: number, at: number): number {
    const { water, boat } = this;
    const one = this.places[a] as Place;
    const other = this.places[b] as Place;
    const length = Math.hypot(other.along - one.along, other.port - one.port);
    if (length === 0) return 0;
    const ex = (other.along - one.along) / length;
    const ey = (other.port - one.port) / length;
    const pieces = Math.max(1, Math.round(length / (PIECE_SHARE * this.lengthMetres)));
    const piece = length / pieces;
    let took = 0;
    for (let i = 0; i < pieces; i++) {
      const x = one.along + (i + 0.5) * piece * ex;
      const y = one.port + (i + 0.5) * piece * ey;
      const when = at + took + (0.5 * piece) / boat.fastestMps;
      if (water.coarseAt(x, y, when) !== COVERED) return Number.POSITIVE_INFINITY;
      const made = boat.madeGoodMps(ex, ey, water.alongMps, water.portMps, x, y, when);
      if (!(made > 0)) return Number.POSITIVE_INFINITY;
      took += piece / made;
    }
    return took;
  }

  private wayTo(from: Int32Array, seconds: Float64Array): RoughWay {
    const nodes: number[] = [];
    for (let node = 1; node >= 0; node = from[node] as number) nodes.push(node);
    nodes.reverse();
    return {
      along: Float64Array.from(nodes, (node) => (this.places[node] as Place).along),
      port: Float64Array.from(nodes, (node) => (this.places[node] as Place).port),
      seconds: Float64Array.from(nodes, (node) => seconds[node] as number),
    };
  }
}
