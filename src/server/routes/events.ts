import type { ServerResponse } from "node:http";
import { z } from "zod";
import { issuesTold, ofRun } from "../../api/index.ts";
import { refuse } from "../answer.ts";
import type { Office } from "../office.ts";
import type { RunEvent } from "../runs.ts";
import type { Server } from "../server-type.ts";
import { noRun } from "./answers.ts";

/** A line that says nothing, so that a way through which nothing goes is not cut. Only while somebody listens. */
const BREATH_MILLISECONDS = 15_000;

/** The events of a run as they happen (server-sent events, HTML Living Standard 9.2). */
export function eventRoutes(server: Server, office: Office): void {
  const open = new Set<ServerResponse>();
  server.addHook("preClose", async () => {
    for (const response of open) response.end();
  });
  server.get(
    "/api/runs/:id/events",
    {
      schema: {
        tags: ["answers"],
        summary: "a run as it goes on",
        description: "`progress` {done, of, stage}, `board`, then `done`, `failed` {issues} or `cancelled`.",
        produces: ["text/event-stream"],
        params: ofRun,
        response: { 200: z.string().describe("text/event-stream"), "4xx": issuesTold },
      },
    },
    (request, reply) => {
      const run = office.runs.get(request.params.id);
      if (run === null) {
        refuse(reply, [noRun(request.params.id)]);
        return;
      }
      reply.hijack();
      const response = reply.raw;
      for (const [name, value] of Object.entries(reply.getHeaders())) if (value !== undefined) response.setHeader(name, value);
      response.writeHead(200, {
        "content-type": "text/event-stream; charset=utf-8",
        "cache-control": "no-store",
        "x-accel-buffering": "no",
      });
      open.add(response);
      const breath = setInterval(() => response.write(":\n\n"), BREATH_MILLISECONDS);
      let stop = (): void => {};
      const end = (): void => {
        clearInterval(breath);
        stop();
        open.delete(response);
      };
      response.on("close", end);
      stop = office.runs.listen(run, (event) => {
        response.write(eventText(event));
        if (event.event === "done" || event.event === "failed" || event.event === "cancelled") response.end();
      });
    },
  );
}

function eventText(event: RunEvent): string {
  const data =
    event.event === "progress"
      ? JSON.stringify(event.data)
      : event.event === "board"
        ? event.json
        : event.event === "failed"
          ? JSON.stringify({ schema: "athwart.issues/1", issues: event.issues })
          : "{}";
  return `event: ${event.event}\ndata: ${data}\n\n`;
}
