import { z } from "zod";
import {
  afterTold,
  boardTold,
  departureTold,
  issuesTold,
  nothingSaid,
  ofDeparture,
  ofPassage,
  ofRun,
  paperQuery,
  runBegun,
} from "../../api/index.ts";
import { issue } from "../../core/answers/index.ts";
import { refuse, sendJson } from "../answer.ts";
import type { Office } from "../office.ts";
import type { Server } from "../server-type.ts";

const TAGS = ["answers"];
const issuesMay = { "4xx": issuesTold };

/** What is reckoned of a passage: runs begun and cancelled, its board, one departure. */
export function answerRoutes(server: Server, office: Office): void {
  server.post(
    "/api/passages/:id/runs",
    {
      schema: {
        tags: TAGS,
        summary: "tries every departure; a run that is going is given, not doubled",
        params: ofPassage,
        body: nothingSaid,
        response: { 202: runBegun, ...issuesMay },
      },
    },
    async (request, reply) => {
      const run = office.run(request.params.id);
      return run.ok ? sendJson(reply, JSON.stringify({ id: run.value.id }), 202) : refuse(reply, run.issues);
    },
  );

  server.delete(
    "/api/runs/:id",
    {
      schema: {
        tags: TAGS,
        summary: "cancels a run; what it has tried is not lost",
        params: ofRun,
        response: { 204: z.null().describe("cancelled"), ...issuesMay },
      },
    },
    async (request, reply) => {
      const { id } = request.params;
      if (office.runs.get(id) === null) return refuse(reply, [noRun(id)]);
      office.cancel(id);
      return reply.code(204).send(null);
    },
  );

  server.get(
    "/api/passages/:id/board",
    { schema: { tags: TAGS, summary: "when to leave", params: ofPassage, response: { 200: boardTold, ...issuesMay } } },
    async (request, reply) => {
      const board = await office.board(request.params.id);
      if (!board.ok) return refuse(reply, board.issues);
      const { boardJson, run } = board.value;
      // Chances that are still wanting come with that run.
      if (boardJson !== null) return sendJson(run === null ? reply : reply.header("athwart-run", run.id), boardJson);
      return refuse(reply, [issue("board", "not-run-yet", "the departures are still being tried")], run?.id);
    },
  );

  server.get(
    "/api/passages/:id/departures/:at",
    {
      schema: {
        tags: TAGS,
        summary: "one departure looked at closely",
        params: ofDeparture,
        response: { 200: departureTold, ...issuesMay },
      },
    },
    async (request, reply) => {
      const passage = office.forDesk(request.params.id);
      if (!passage.ok) return refuse(reply, passage.issues);
      const departAt = secondsOf(request.params.at);
      const gone = new AbortController();
      reply.raw.once("close", () => gone.abort());
      const told = await office.desk.ask<"departure">({ kind: "departure", passage: passage.value, departAt }, gone.signal);
      return told.ok ? sendJson(reply, told.value) : refuse(reply, told.issues);
    },
  );

  paperRoute(server, office);

  server.get(
    "/api/passages/:id/departures/:at/after",
    {
      schema: {
        tags: TAGS,
        summary: "the days after that arrival, the way home, and where else to leave from",
        params: ofDeparture,
        response: { 200: afterTold, ...issuesMay },
      },
    },
    async (request, reply) => {
      const passage = office.forDesk(request.params.id);
      if (!passage.ok) return refuse(reply, passage.issues);
      const departAt = secondsOf(request.params.at);
      const told = await office.desk.ask<"after">({ kind: "after", passage: passage.value, departAt });
      return told.ok ? sendJson(reply, told.value) : refuse(reply, told.issues);
    },
  );
}

function paperRoute(server: Server, office: Office): void {
  server.get(
    "/api/passages/:id/paper",
    {
      schema: {
        tags: TAGS,
        summary: "one departure on two pages of paper",
        produces: ["text/html"],
        params: ofPassage,
        querystring: paperQuery,
        response: { 200: z.string(), ...issuesMay },
      },
    },
    async (request, reply) => {
      const passage = office.forDesk(request.params.id);
      if (!passage.ok) return refuse(reply, passage.issues);
      const html = await office.paper(passage.value, secondsOf(request.query.at));
      if (!html.ok) return refuse(reply, html.issues);
      return reply.header("cache-control", "no-store").type("text/html; charset=utf-8").send(html.value);
    },
  );
}

/** An instant that a schema has passed, in seconds of the UTC epoch. */
function secondsOf(instant: string): number {
  return Date.parse(instant) / 1000;
}

export function noRun(id: string) {
  return issue(id, "not-found", "there is no such run: it ended some time ago, or the program has been started anew");
}
