import type { FastifyReply } from "fastify";
import type { Code, Issue } from "../core/answers/index.ts";

/** The status that goes with a code; anything else is 422: understood, and not to be had as it stands. */
const STATUS: Partial<Readonly<Record<Code, number>>> = {
  "request-not-understood": 400,
  "asked-from-elsewhere": 403,
  "not-found": 404,
  "revision-moved-on": 409,
  "not-run-yet": 409,
  "demo-stays": 409,
  "no-change-to-walk": 409,
  "upload-too-large": 413,
  "upload-not-understood": 415,
  "desk-lost": 503,
  "server-fault": 500,
  "disk-full": 507,
  "data-folder-not-usable": 507,
};

/** Answers with issues, `athwart.issues/1`; `run`: one that would bring what was asked. */
export function refuse(reply: FastifyReply, issues: readonly Issue[], run?: string): FastifyReply {
  const [first] = issues;
  if (first === undefined) throw new Error("refused without an issue");
  const body = { schema: "athwart.issues/1" as const, issues, ...(run === undefined ? {} : { run: { id: run } }) };
  return reply
    .code(STATUS[first.code] ?? 422)
    .header("cache-control", "no-store")
    .type("application/json")
    .send(JSON.stringify(body));
}

/** Answers with JSON that is text already. */
export function sendJson(reply: FastifyReply, json: string, status = 200): FastifyReply {
  return reply.code(status).header("cache-control", "no-store").type("application/json").send(json);
}

/** An object's JSON with entries that are JSON text already. */
export function withJson(object: object, entries: Readonly<Record<string, string>>): string {
  const more = Object.entries(entries).map(([key, json]) => `${JSON.stringify(key)}:${json}`);
  const head = JSON.stringify(object).slice(0, -1);
  return `${head}${head === "{" ? "" : ","}${more.join(",")}}`;
}
