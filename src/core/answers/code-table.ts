/** One entry of the registry: whose fault, what happened, and what the skipper can do. */
export interface CodeEntry {
  /** `input`: what was given can't be used. `noAnswer`: the sea or the data has no answer. */
  readonly kind: "input" | "noAnswer";
  readonly meaning: string;
  readonly whatToDo: string;
}

/** The codes that one room raises. Codes are short lower-case words joined by hyphens. */
export type CodeTable = Readonly<Record<string, CodeEntry>>;
