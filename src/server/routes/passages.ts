import type { FastifyReply } from "fastify";
import { z } from "zod";
import {
  changeTold,
  iso,
  issuesTold,
  nothingSaid,
  ofPassage,
  type PassageAsTyped,
  type PassageMadeTold,
  type PassagesListed,
  passageAsTyped,
  passageEdits,
  passageMade,
  passagesListed,
  sourceNamed,
  textChange,
} from "../../api/index.ts";
import { bad, issue, type Parsed } from "../../core/answers/index.ts";
import { editEntries, nameFirst, type PassageDocument, readPassage } from "../../formats/passage/index.ts";
import type { PassageEntry } from "../../storage/index.ts";
import { refuse, sendJson, withJson } from "../answer.ts";
import { type Changed, type Office, writtenOf, writtenOfText } from "../office.ts";
import { openSent } from "../open-sent.ts";
import type { Server } from "../server-type.ts";
import { kindOfStored } from "../stored-kind.ts";

const issuesMay = { "4xx": issuesTold };
const TAGS = ["passages"];

/** The list of passages, and one passage's text: read, sent, changed, taken back. */
export function passageRoutes(server: Server, office: Office): void {
  const { library } = office;

  server.get(
    "/api/passages",
    { schema: { tags: TAGS, summary: "every passage: the demos first, then the one changed last", response: { 200: passagesListed } } },
    async (_request, reply) => {
      const passages = library.list().map(({ id, name, invented, origin, savedAt, revision }) => ({
        id,
        name,
        invented,
        origin,
        savedAt: iso(savedAt),
        revision,
      }));
      return sendJson(reply, JSON.stringify({ passages } satisfies PassagesListed));
    },
  );

  server.post(
    "/api/passages",
    {
      schema: {
        tags: TAGS,
        summary: "opens a passage file with the files that it names",
        description: "A form: `passage`, and any number of `file`.",
        response: { 201: passageMade, ...issuesMay },
      },
      config: { form: ["passage", "file"] },
    },
    async (request, reply) => {
      const made = await openSent(office, request);
      if (!made.ok) return refuse(reply, made.issues);
      const { id, name, revision } = made.value;
      return sendJson(reply, JSON.stringify({ id, name, revision } satisfies PassageMadeTold), 201);
    },
  );

  server.get(
    "/api/passages/:id",
    { schema: { tags: TAGS, summary: "a passage as typed now", params: ofPassage, response: { 200: passageAsTyped, ...issuesMay } } },
    async (request, reply) => {
      const { id } = request.params;
      const entry = library.entry(id);
      const text = library.text(id);
      if (!entry.ok) return refuse(reply, entry.issues);
      if (!text.ok) return refuse(reply, text.issues);
      const { name, revision, canUndo, canRedo } = entry.value;
      const files = library.filesOf(id).map((file) => ({ name: file.name, sizeBytes: file.sizeBytes }));
      return sendJson(reply, JSON.stringify({ id, name, text: text.value, revision, canUndo, canRedo, files } satisfies PassageAsTyped));
    },
  );

  server.get(
    "/api/passages/:id/text",
    {
      schema: {
        tags: TAGS,
        summary: "the passage file, to be kept elsewhere",
        produces: ["text/yaml"],
        params: ofPassage,
        response: { 200: z.string(), ...issuesMay },
      },
    },
    async (request, reply) => {
      const text = library.text(request.params.id);
      const entry = library.entry(request.params.id);
      if (!text.ok) return refuse(reply, text.issues);
      const name = entry.ok ? entry.value.name : "passage";
      return reply
        .header("content-disposition", `attachment; filename="passage.yaml"; filename*=UTF-8''${fileNameOf(name)}`)
        .header("cache-control", "no-store")
        .type("text/yaml; charset=utf-8")
        .send(text.value);
    },
  );

  server.put(
    "/api/passages/:id/text",
    {
      schema: { tags: TAGS, summary: "a whole new text", params: ofPassage, body: textChange, response: { 200: changeTold, ...issuesMay } },
    },
    async (request, reply) => {
      const { text, revision } = request.body;
      return change(reply, office, request.params.id, revision, () => readPassage(text, { name: "the passage" }));
    },
  );

  server.patch(
    "/api/passages/:id",
    {
      schema: {
        tags: TAGS,
        summary: "changes entries where they stand; comments and the rest stay as typed",
        params: ofPassage,
        body: passageEdits,
        response: { 200: changeTold, ...issuesMay },
      },
    },
    async (request, reply) => {
      const { edits, revision } = request.body;
      return change(reply, office, request.params.id, revision, (document) => editEntries(document, edits));
    },
  );

  for (const step of ["undo", "redo"] as const) {
    server.post(
      `/api/passages/:id/${step}`,
      {
        schema: {
          tags: TAGS,
          summary: step === "undo" ? "takes the last change back" : "makes a change again that was taken back",
          params: ofPassage,
          body: nothingSaid,
          response: { 200: changeTold, ...issuesMay },
        },
      },
      async (request, reply) => told(reply, office, library.walk(request.params.id, step, writtenOfText)),
    );
  }

  server.post(
    "/api/passages/:id/sources",
    {
      schema: {
        tags: TAGS,
        summary: "names a stored file as the first source of water or weather",
        params: ofPassage,
        body: sourceNamed,
        response: { 200: changeTold, ...issuesMay },
      },
    },
    async (request, reply) => {
      const { file, as, revision } = request.body;
      const kind = await kindOfStored(library, request.params.id, file);
      if (!kind.ok) return refuse(reply, kind.issues);
      if (kind.value === "letter" && as === "water") {
        return refuse(reply, [issue("file", "source-lacks-quantity", `${file} is a letter, and gives no current`)]);
      }
      const key = kind.value === "letter" ? "letter" : "file";
      return change(reply, office, request.params.id, revision, (document) => nameFirst(document, as, key, file));
    },
  );

  server.delete(
    "/api/passages/:id",
    {
      schema: {
        tags: TAGS,
        summary: "removes a passage and its files",
        params: ofPassage,
        response: { 204: z.null().describe("removed"), ...issuesMay },
      },
    },
    async (request, reply) => {
      const { id } = request.params;
      const removed = library.remove(id);
      if (!removed.ok) return refuse(reply, removed.issues);
      const run = office.runs.goingFor(id);
      if (run !== null) office.cancel(run.id);
      return reply.code(204).send(null);
    },
  );
}

/** Makes a change to a passage as it stands at a revision; one that changes no letter is none. */
async function change(
  reply: FastifyReply,
  office: Office,
  id: string,
  revision: number,
  make: (document: PassageDocument) => Parsed<PassageDocument>,
): Promise<FastifyReply> {
  const entry = office.library.entry(id);
  if (!entry.ok) return refuse(reply, entry.issues);
  if (entry.value.revision !== revision) {
    const at = `the passage is at revision ${entry.value.revision}, not ${revision}`;
    return refuse(reply, bad(issue("revision", "revision-moved-on", at)).issues);
  }
  const document = office.document(id);
  const made = document.ok ? make(document.value) : document;
  if (!made.ok) return refuse(reply, made.issues);
  const same = document.ok && document.value.text === made.value.text;
  office.foresee(id, made.value);
  return told(reply, office, same ? entry : office.library.change(id, revision, writtenOf(made.value)));
}

async function told(reply: FastifyReply, office: Office, entry: Parsed<PassageEntry>): Promise<FastifyReply> {
  if (!entry.ok) return refuse(reply, entry.issues);
  const changed = await office.changed(entry.value);
  return changed.ok ? sendJson(reply, changeJson(changed.value)) : refuse(reply, changed.issues);
}

export function changeJson({ entry: { revision, canUndo, canRedo }, boardJson, run }: Changed): string {
  const object = { revision, canUndo, canRedo, run: run === null ? null : { id: run.id } };
  return withJson(object, { board: boardJson ?? "null" });
}

/** A file's name for a passage, as RFC 5987 writes it. */
function fileNameOf(name: string): string {
  const plain = name
    .replace(/[\\/:*?"<>|\p{Cc}]+/gu, " ")
    .trim()
    .slice(0, 100);
  return encodeURIComponent(`${plain === "" ? "passage" : plain}.yaml`).replace(/['()*]/g, (sign) => `%${sign.charCodeAt(0).toString(16)}`);
}
