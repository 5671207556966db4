/**
 * The sea or the data has no answer: where, when, and for what. Returned, never thrown.
 *
 * `at` is in seconds of the UTC epoch; `where` is a position in degrees; `coveredUntil` is the last instant the data reaches, if known.
 */
export type NoAnswer =
  | {
      readonly kind: "noAnswer";
      readonly code: "not-covered-place" | "not-covered-time" | "not-covered-variable";
      readonly quantity: string;
      readonly at: number;
      readonly where: { readonly latitudeDeg: number; readonly longitudeDeg: number };
      readonly coveredFrom: number | null;
      readonly coveredUntil: number | null;
    }
  | {
      readonly kind: "noAnswer";
      readonly code: "cannot-hold" | "stalled" | "unreachable" | "carried-away" | "no-way" | "current-not-fit" | "swell-not-known";
      readonly at: number;
      readonly where: { readonly latitudeDeg: number; readonly longitudeDeg: number };
    }
  | {
      readonly kind: "noAnswer";
      readonly code: "across-land";
      readonly at: number;
      readonly where: { readonly latitudeDeg: number; readonly longitudeDeg: number };
      /** The land or the kept-out area that is run into, its name null for the nameless coast; left out where it isn't known which. */
      readonly area?: { readonly kind: "land" | "keptOut"; readonly name: string | null };
    }
  | {
      readonly kind: "noAnswer";
      readonly code: "not-stated";
      /** What the passage file does not say, and of which of its entries, null where there is but one. */
      readonly wants: "burn" | "usableFuel" | "draught" | "depths" | "datum" | "crew" | "approach";
      readonly name: string | null;
      readonly at: number;
      readonly where: { readonly latitudeDeg: number; readonly longitudeDeg: number };
    }
  | {
      readonly kind: "noAnswer";
      readonly code: "gate-no-opening" | "gate-times-not-given";
      /** The gate's name. */
      readonly gate: string;
      /** When the boat is there. */
      readonly at: number;
      readonly where: { readonly latitudeDeg: number; readonly longitudeDeg: number };
      /** The time looked at, or what the values given reach. */
      readonly coveredFrom: number | null;
      readonly coveredUntil: number | null;
    }
  | {
      readonly kind: "noAnswer";
      readonly code: "entrance-not-judged";
      /** The gate's name. */
      readonly gate: string;
      /** What is asked for there and not known then: of the forecast, or of a tide or a stream. */
      readonly lacks: readonly ("tide" | "stream" | "sea" | "seaPeriod" | "wind")[];
      readonly at: number;
      readonly where: { readonly latitudeDeg: number; readonly longitudeDeg: number };
      /** What the forecast reaches. */
      readonly coveredFrom: number | null;
      readonly coveredUntil: number | null;
    };
