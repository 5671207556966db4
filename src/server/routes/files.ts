import { filesTold, issuesTold, ofPassage } from "../../api/index.ts";
import { refuse, sendJson, withJson } from "../answer.ts";
import { keepSent } from "../keep-sent.ts";
import type { Office } from "../office.ts";
import type { Server } from "../server-type.ts";

/** Files beside a passage: each is looked into before any is kept. */
export function fileRoutes(server: Server, office: Office): void {
  server.post(
    "/api/passages/:id/files",
    {
      schema: {
        tags: ["files"],
        summary: "looks into files, says whether they serve the passage, and keeps them beside it",
        description: "A form: any number of `file`. Where one of them can't be read none is kept.",
        params: ofPassage,
        response: { 200: filesTold, "4xx": issuesTold },
      },
      config: { form: ["file"] },
    },
    async (request, reply) => {
      const { id } = request.params;
      const entry = office.library.entry(id);
      if (!entry.ok) return refuse(reply, entry.issues);
      const kept = await keepSent(office, id, request);
      if (!kept.ok) return refuse(reply, kept.issues);
      const { filesJson, run } = kept.value;
      return sendJson(reply, withJson({ run: run === null ? null : { id: run.id } }, { files: filesJson }));
    },
  );
}
