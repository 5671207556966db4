/** Attributes of a variable, as NetCDF has them: text, or numbers. */
export type MappingAttributes = ReadonlyMap<string, string | readonly number[]>;

/** All the finite numbers of an attribute, also where they are written as text; none where it isn't there or holds anything else. */
export function numbersOf(attributes: MappingAttributes, name: string): readonly number[] {
  const value = attributes.get(name);
  if (value === undefined) return [];
  const numbers = typeof value === "string" ? value.split(/[\s,]+/).flatMap((word) => (word === "" ? [] : [Number(word)])) : value;
  return numbers.every(Number.isFinite) ? numbers : [];
}

/** The first number of the first of these attributes that has one. */
export function numberOf(attributes: MappingAttributes, ...names: readonly string[]): number | null {
  for (const name of names) {
    const [first] = numbersOf(attributes, name);
    if (first !== undefined) return first;
  }
  return null;
}

export function textOf(attributes: MappingAttributes, ...names: readonly string[]): string | null {
  for (const name of names) {
    const value = attributes.get(name);
    if (typeof value === "string" && value.trim() !== "") return value.trim();
  }
  return null;
}
