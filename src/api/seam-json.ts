import type { Seam } from "../core/plan/index.ts";
import { knotsFromMps } from "../core/units/index.ts";
import { iso, isoOrNull, rounded } from "./instant.ts";

/** Where two runs of a forecast are joined under a passage. */
export function seamJson(seam: Seam) {
  const speed = seam.jump === null || seam.quantity === "sea" ? null : rounded(knotsFromMps(seam.jump), 3);
  return {
    quantity: seam.quantity,
    source: seam.source,
    at: iso(seam.at),
    fromRunIssuedAt: isoOrNull(seam.fromRunIssuedAt),
    toRunIssuedAt: isoOrNull(seam.toRunIssuedAt),
    jumpKn: speed,
    jumpMetres: seam.quantity === "sea" && seam.jump !== null ? rounded(seam.jump, 2) : null,
    turnDeg: seam.turnDeg === null ? null : rounded(seam.turnDeg, 1),
  };
}
