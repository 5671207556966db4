import { bad, issue } from "../../../../core/answers/index.ts";

type Refusal = ReturnType<typeof bad>;

/** The stream contradicts itself, or the message around it. */
export function lies(path: string, said: string): Refusal {
  return bad(issue(path, "file-lies", `The JPEG 2000 stream can't be true: ${said}`));
}

/** The stream is sound as far as can be told, and uses what is not read. */
export function notRead(path: string, said: string): Refusal {
  return bad(issue(path, "packing-not-read", `The JPEG 2000 stream is not read: ${said}`));
}
