import { FetchRays, type Land } from "../coast/index.ts";
import type { Plane } from "../earth/index.ts";
import { COVERED } from "../fields/index.ts";
import { metresFromNm, RAD_PER_DEG } from "../units/index.ts";
import { isOnSheet } from "../water/index.ts";
import {
  middleOf,
  strongestEndOf,
  WIND_ARC_DEG,
  WIND_FROM_DEG,
  WIND_SLOTS,
  WIND_SPEED_HIGH_MPS,
  type WindSampler,
} from "../weather/index.ts";
import { StandingSea, type StandingSystem } from "./standing-sea.ts";

/** Between the places at which the sea is raised, metres: two miles. Ours. */
export const RAISED_APART_METRES: number = metresFromNm(2);
/** Where land is near it is raised at the place itself too, to within so much, metres. */
const NEAR_SHORE_METRES: number = metresFromNm(0.2);
/** How far around a place ashore one looks for water, metres, and in how many directions. */
const RINGS_METRES: readonly number[] = [0, 0.1, 0.25, 0.5, 1, 2].map(metresFromNm);
const RING_PLACES = 8;
/** A ray that finds no land counts as so far, metres: a wind of 15 m/s raises its full sea over it (0.243 U²/g at 0.0016 √(gx) U/g). Ours. */
export const OPEN_FETCH_METRES = 500e3;
/** The forecast's first wind is taken to have blown for so long before, seconds. Ours. */
export const BLEW_BEFORE_SECONDS = 12 * 3600;
export const RAISED_EVERY_SECONDS = 3600;

/** What is kept of an hour at one place: wind sea and old sea, each its height and, times that height, period and toward east and north. */
export const SYSTEM_NUMBERS = 4;
export const RAISED_NUMBERS: number = 2 * SYSTEM_NUMBERS;

/** The sea raised at one place. */
export interface RaisedPlace {
  /** On land by the coastline, or beyond the plane. */
  readonly isAshore: boolean;
  /** By hour, `RAISED_NUMBERS` each. */
  readonly hours: Float32Array;
  /** By hour, 1 where the wind is known. */
  readonly covered: Uint8Array;
}

/** Raises the sea place by place through all the hours of a wind, each when it is first asked for. */
export class RaisedPlaces {
  readonly firstAt: number;
  readonly hourCount: number;
  private readonly wind: WindSampler;
  private readonly plane: Plane;
  private readonly land: Land | null;
  private readonly places = new Map<number, RaisedPlace>();
  private readonly nearShore = new Map<string, readonly RaisedPlace[]>();
  private readonly standing = new StandingSea();
  private readonly reading = new Float64Array(WIND_SLOTS);
  private lastFetchMetres = OPEN_FETCH_METRES;

  /** `covers`: what the wind does. `land` null: none is known. */
  constructor(wind: WindSampler, covers: { readonly from: number; readonly until: number }, plane: Plane, land: Land | null) {
    this.wind = wind;
    this.plane = plane;
    this.land = land;
    this.firstAt = Math.ceil(covers.from / RAISED_EVERY_SECONDS) * RAISED_EVERY_SECONDS;
    this.hourCount = Math.max(1, Math.floor((covers.until - this.firstAt) / RAISED_EVERY_SECONDS) + 1);
  }

  /** That of a corner of the grid of `RAISED_APART_METRES`. */
  atCorner(column: number, row: number): RaisedPlace {
    const key = column * 65536 + row;
    const known = this.places.get(key);
    if (known !== undefined) return known;
    const made = this.raise(column * RAISED_APART_METRES, row * RAISED_APART_METRES);
    this.places.set(key, made);
    return made;
  }

  /** Whether no land lies between the corners of a cell, as far as its sides and diagonals tell, nor any corner ashore. */
  isPlain(column: number, row: number): boolean {
    const { land } = this;
    if (land === null) return true;
    const [left, low] = [column * RAISED_APART_METRES, row * RAISED_APART_METRES];
    const [right, high] = [left + RAISED_APART_METRES, low + RAISED_APART_METRES];
    return !(
      land.crosses(left, low, right, low) ||
      land.crosses(right, low, right, high) ||
      land.crosses(right, high, left, high) ||
      land.crosses(left, high, left, low) ||
      land.crosses(left, low, right, high) ||
      land.crosses(left, high, right, low)
    );
  }

  /**
   * Close to a place near land: the place itself, or where that is ashore by the coastline, what is afloat on the nearest ring around that has
   * anything afloat; none where that is none.
   */
  near(xMetres: number, yMetres: number): readonly RaisedPlace[] {
    // Toward the middle of the plane, so that no place on it is taken beyond its edge.
    const [column, row] = [Math.trunc(xMetres / NEAR_SHORE_METRES), Math.trunc(yMetres / NEAR_SHORE_METRES)];
    const key = `${column} ${row}`;
    const known = this.nearShore.get(key);
    if (known !== undefined) return known;
    const found = this.lookNear(column * NEAR_SHORE_METRES, row * NEAR_SHORE_METRES);
    this.nearShore.set(key, found);
    return found;
  }

  private lookNear(xMetres: number, yMetres: number): readonly RaisedPlace[] {
    for (const ring of RINGS_METRES) {
      const afloat: RaisedPlace[] = [];
      for (let turn = 0; turn < (ring === 0 ? 1 : RING_PLACES); turn++) {
        const rad = (turn * 2 * Math.PI) / RING_PLACES;
        const place = this.raise(xMetres + ring * Math.sin(rad), yMetres + ring * Math.cos(rad));
        if (!place.isAshore) afloat.push(place);
      }
      if (afloat.length > 0) return afloat;
    }
    return [];
  }

  /** The sea at one place through all hours. Ashore by the coastline no sea is raised. */
  private raise(xMetres: number, yMetres: number): RaisedPlace {
    const { standing, hourCount, plane, land } = this;
    const hours = new Float32Array(hourCount * RAISED_NUMBERS);
    const covered = new Uint8Array(hourCount);
    const beyond = !isOnSheet(plane, xMetres, yMetres);
    if (beyond || land?.contains(xMetres, yMetres) === true) return { isAshore: true, hours, covered: covered.fill(1) };
    const rays = new FetchRays(land, plane, { xMetres, yMetres }, { withinMetres: OPEN_FETCH_METRES, openCountsMetres: OPEN_FETCH_METRES });
    standing.clear();
    this.lastFetchMetres = OPEN_FETCH_METRES;
    let known = false;
    for (let hour = 0; hour < hourCount; hour++) {
      const isKnown = this.blowAt(
        rays,
        xMetres,
        yMetres,
        this.firstAt + hour * RAISED_EVERY_SECONDS,
        known ? RAISED_EVERY_SECONDS : BLEW_BEFORE_SECONDS,
      );
      if (!isKnown && known) standing.clear();
      known = isKnown;
      if (!isKnown) continue;
      covered[hour] = 1;
      put(hours, hour * RAISED_NUMBERS, standing.wind);
      put(hours, hour * RAISED_NUMBERS + SYSTEM_NUMBERS, standing.old);
    }
    return { isAshore: false, hours, covered };
  }

  /**
   * An hour of the wind at a place: its strongest end at its upper speed, toward its middle over the longest fetch of its arc; a variable one
   * over the fetch of the last.
   */
  private blowAt(rays: FetchRays, xMetres: number, yMetres: number, at: number, seconds: number): boolean {
    const { reading, standing } = this;
    if (this.wind.readInto(reading, xMetres, yMetres, at) !== COVERED) return false;
    const end = strongestEndOf(reading);
    const windMps = end[WIND_SPEED_HIGH_MPS] as number;
    const { fromDegTrue } = middleOf(end);
    if (fromDegTrue === null) {
      standing.blow(windMps, 0, 0, this.lastFetchMetres, seconds);
      return true;
    }
    this.lastFetchMetres = rays.longestIn(end[WIND_FROM_DEG] as number, end[WIND_ARC_DEG] as number);
    const towardRad = (fromDegTrue + 180 - this.plane.convergenceDegAt(xMetres, yMetres)) * RAD_PER_DEG;
    standing.blow(windMps, Math.sin(towardRad), Math.cos(towardRad), this.lastFetchMetres, seconds);
    return true;
  }
}

function put(hours: Float32Array, of: number, system: StandingSystem): void {
  const { heightMetres } = system;
  hours[of] = heightMetres;
  hours[of + 1] = heightMetres * system.periodSeconds;
  hours[of + 2] = heightMetres * system.towardEast;
  hours[of + 3] = heightMetres * system.towardNorth;
}
