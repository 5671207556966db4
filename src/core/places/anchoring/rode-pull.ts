import { degFromRad } from "../../units/index.ts";

/** What is let out, from the anchor up: chain, then rope. Rope is reckoned without weight in the water, and neither stretches. */
export interface Rode {
  readonly chainMetres: number;
  readonly chainNewtonsPerMetre: number;
  readonly ropeMetres: number;
}

/**
 * The greatest angle off the bottom at which the rode may lead from the anchor, degrees: beyond it the pull lifts more than it holds
 * (about 8, as a sailing magazine gives it; common practice).
 */
export const GREATEST_LEAD_DEG = 8;

/** How a rode leads under a steady pull. `short`: it is no longer than the bow is above the bottom. */
export type RodePull =
  | { readonly kind: "short" }
  | {
      readonly kind: "leads";
      /** Off the bottom, at the anchor; 0 while some of the rode lies. */
      readonly leadDeg: number;
      readonly lyingMetres: number;
      /** From the anchor to under the bow. */
      readonly reachMetres: number;
      readonly bowNewtons: number;
    };

/** Less pull than this is none, newtons: the rode hangs straight down. */
const LEAST_PULL_NEWTONS = 1e-3;

/** Halvings of a bisection: to the last bits of a double. */
const HALVINGS = 100;

/**
 * The rode under a horizontal pull: a catenary of chain, and above it a straight rope (statics; a chain all lifted, J. L. Meriam,
 * Engineering Mechanics: Statics, "Flexible cables"). `heightMetres`: of the bow above the bottom. No surge: a boat that rides to seas
 * or sheers about pulls harder.
 */
export function rodePull(rode: Rode, heightMetres: number, pullNewtons: number): RodePull {
  const { chainMetres, chainNewtonsPerMetre, ropeMetres } = rode;
  if (!(chainMetres + ropeMetres > heightMetres)) return { kind: "short" };
  if (!(pullNewtons > LEAST_PULL_NEWTONS)) return hanging(rode, heightMetres);
  const lifted = (metres: number): number => climb(rode, metres, 0, pullNewtons).up;
  if (lifted(chainMetres) >= heightMetres) {
    const metres = bisect(0, chainMetres, (share) => lifted(share) < heightMetres);
    const { out } = climb(rode, metres, 0, pullNewtons);
    const lying = chainMetres - metres;
    return {
      kind: "leads",
      leadDeg: 0,
      lyingMetres: lying,
      reachMetres: lying + out,
      bowNewtons: Math.hypot(pullNewtons, chainNewtonsPerMetre * metres),
    };
  }
  let most = pullNewtons + chainNewtonsPerMetre * chainMetres;
  while (climb(rode, chainMetres, most, pullNewtons).up < heightMetres) most *= 2;
  const lift = bisect(0, most, (newtons) => climb(rode, chainMetres, newtons, pullNewtons).up < heightMetres);
  return {
    kind: "leads",
    leadDeg: degFromRad(Math.atan2(lift, pullNewtons)),
    lyingMetres: 0,
    reachMetres: climb(rode, chainMetres, lift, pullNewtons).out,
    bowNewtons: Math.hypot(pullNewtons, lift + chainNewtonsPerMetre * chainMetres),
  };
}

/**
 * How much rode keeps the pull on the anchor level, metres: √(h² + 2hT/w) of chain; where the boat has less chain than that, all of it
 * and rope. Null where there is no chain, since a rope without weight never lies level.
 */
export function rodeForLevelPull(
  chainMetres: number,
  chainNewtonsPerMetre: number,
  heightMetres: number,
  pullNewtons: number,
): { readonly chainMetres: number; readonly ropeMetres: number } | null {
  if (!(chainMetres > 0 && chainNewtonsPerMetre > 0)) return null;
  const allChain = Math.sqrt(heightMetres * heightMetres + (2 * heightMetres * pullNewtons) / chainNewtonsPerMetre);
  if (allChain <= chainMetres) return { chainMetres: allChain, ropeMetres: 0 };
  const weight = chainNewtonsPerMetre * chainMetres;
  const chainUp = (Math.hypot(pullNewtons, weight) - pullNewtons) / chainNewtonsPerMetre;
  return { chainMetres, ropeMetres: ((heightMetres - chainUp) * Math.hypot(pullNewtons, weight)) / weight };
}

/** In no wind at all: straight down, the rest on the bottom. */
function hanging({ chainMetres, chainNewtonsPerMetre, ropeMetres }: Rode, heightMetres: number): RodePull {
  const lyingMetres = chainMetres + ropeMetres - heightMetres;
  const hangingChain = Math.max(0, Math.min(chainMetres, heightMetres - ropeMetres));
  return { kind: "leads", leadDeg: 0, lyingMetres, reachMetres: lyingMetres, bowNewtons: chainNewtonsPerMetre * hangingChain };
}

/** How far out and up a rode reaches with so much of its chain lifted, `liftNewtons` pulling up at its lower end. */
function climb(
  { chainNewtonsPerMetre: weight, ropeMetres }: Rode,
  chainMetres: number,
  liftNewtons: number,
  pullNewtons: number,
): { readonly out: number; readonly up: number } {
  const above = liftNewtons + weight * chainMetres;
  const [low, high] = [Math.hypot(pullNewtons, liftNewtons), Math.hypot(pullNewtons, above)];
  const hangs = weight * chainMetres > 0;
  const straight = high === 0 ? { out: 0, up: 0 } : { out: pullNewtons / high, up: above / high };
  const chainOut = !hangs
    ? chainMetres * straight.out
    : (pullNewtons / weight) * (Math.asinh(above / pullNewtons) - Math.asinh(liftNewtons / pullNewtons));
  const chainUp = !hangs ? chainMetres * straight.up : (high - low) / weight;
  return { out: chainOut + ropeMetres * straight.out, up: chainUp + ropeMetres * straight.up };
}

/** Where `below` turns from true to false. */
function bisect(from: number, to: number, below: (value: number) => boolean): number {
  let [low, high] = [from, to];
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (low + high) / 2;
    if (below(middle)) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
