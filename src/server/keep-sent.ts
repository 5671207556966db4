import type { FastifyRequest } from "fastify";
import { bad, good, type Issue, issue, type Parsed } from "../core/answers/index.ts";
import { withJson } from "./answer.ts";
import type { Office } from "./office.ts";
import { firstPassageAmong } from "./open-sent.ts";
import { discardAll, type Received, receive } from "./receive.ts";
import type { Run } from "./runs.ts";

/** Files that were looked into and kept: each as JSON, and the run that the passage now needs. */
export interface KeptSent {
  readonly filesJson: string;
  readonly run: Run | null;
}

/** Looks into the files of a form, and keeps them beside a passage where every one can be read; else all that is wrong, and nothing is kept. */
export async function keepSent(office: Office, id: string, request: FastifyRequest): Promise<Parsed<KeptSent>> {
  const { library } = office;
  const upload = await receive(request, library, "files");
  if (!upload.ok) return upload;
  const { files } = upload.value;
  try {
    const passage = await firstPassageAmong(files);
    if (passage !== null) {
      const message = `${passage.name} is a passage file: it is opened by itself, not laid beside another`;
      return bad(issue("file", "upload-not-understood", message, "Open it as a passage."));
    }
    const looked = await lookInto(office, id, files);
    if (!looked.ok) return looked;
    for (const file of files) await library.contents.keep(file);
    const added = library.addFiles(
      id,
      files.map(({ name, hash, sizeBytes }) => ({ name, hash, sizeBytes })),
    );
    if (!added.ok) return added;
    const { told, anyNamed } = looked.value;
    const run = anyNamed ? office.run(id) : null;
    if (run?.ok === false) return run;
    return good({ filesJson: `[${told.join(",")}]`, run: run === null ? null : run.value });
  } finally {
    await discardAll(library, files);
  }
}

async function lookInto(
  office: Office,
  id: string,
  files: readonly Received[],
): Promise<Parsed<{ readonly told: readonly string[]; readonly anyNamed: boolean }>> {
  const told: string[] = [];
  const issues: Issue[] = [];
  let anyNamed = false;
  const passage = office.forDesk(id);
  if (!passage.ok) return passage;
  for (const { path, name } of files) {
    const inspected = await office.desk.ask<"inspect">({ kind: "inspect", passage: passage.value, path, name });
    if (!inspected.ok) {
      issues.push(...inspected.issues);
      continue;
    }
    const { named, entry } = inspected.value;
    anyNamed ||= named;
    told.push(withJson({ name, named }, { inspection: entry }));
  }
  return issues.length > 0 ? bad(...issues) : good({ told, anyNamed });
}
