/** What the page's address says: `#passage/2027-04-08T08:00:00Z`, either part or both. */
export interface Address {
  readonly passageId: string | null;
  readonly departAt: string | null;
}

/** Reads the address after its `#`; what can't be read is as if it weren't there. */
export function readAddress(hash: string): Address {
  const [id = "", departAt = ""] = hash.replace(/^#/, "").split("/").map(decoded);
  return { passageId: id === "" ? null : id, departAt: Number.isNaN(Date.parse(departAt)) ? null : departAt };
}

/** The address of a passage and a departure. */
export function writeAddress({ passageId, departAt }: Address): string {
  const id = encodeURIComponent(passageId ?? "");
  return departAt === null ? `#${id}` : `#${id}/${departAt}`;
}

function decoded(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch {
    return "";
  }
}
