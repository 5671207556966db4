import type { FastifyError, FastifyInstance, FastifyReply, FastifyRequest } from "fastify";
import { hasZodFastifySchemaValidationErrors } from "fastify-type-provider-zod";
import { BadInput, type Issue, issue } from "../core/answers/index.ts";
import { storageIssue } from "../storage/index.ts";
import { refuse } from "./answer.ts";

/** Every error as issues, without a trace of the program's inside; what is our own bug is told to `fault`. */
export function tellFaults(server: FastifyInstance, fault: (why: string) => void): void {
  server.setErrorHandler((error: FastifyError, _request, reply) => answerError(error, reply, fault));
  server.setNotFoundHandler((request, reply) => {
    const path = request.url.split("?")[0] ?? "";
    return refuse(reply, [issue(shortened(path), "not-found", "there is nothing here")]);
  });
}

/** The same for requests that no route was found for, since they are malformed. */
export function answerMalformed(error: FastifyError, _request: FastifyRequest, reply: FastifyReply): void {
  answerError(error, reply, () => {});
}

function answerError(error: FastifyError, reply: FastifyReply, fault: (why: string) => void): FastifyReply | undefined {
  if (reply.sent || reply.raw.headersSent) {
    reply.raw.destroy();
    return undefined;
  }
  return refuse(reply, issuesOf(error, fault));
}

function issuesOf(error: FastifyError, fault: (why: string) => void): readonly Issue[] {
  if (error instanceof BadInput) return error.issues;
  if (hasZodFastifySchemaValidationErrors(error)) {
    const where = error.validationContext ?? "body";
    return error.validation.map(({ instancePath, message }) =>
      issue(shortened(`${where}${instancePath.replaceAll("/", ".")}`), "request-not-understood", `${message ?? "it does not fit"}`),
    );
  }
  const stored = storageIssue("data folder", error);
  if (stored !== null) return [stored];
  const status = error.statusCode ?? 500;
  if (status === 413) return [issue("body", "upload-too-large", "more was sent than is taken at once")];
  if (status === 415 || status === 406) return [issue("content-type", "upload-not-understood", "this kind of content is not taken here")];
  if (status >= 400 && status < 500) return [issue("request", "request-not-understood", "the request is not a whole one")];
  fault(error.stack ?? error.message);
  return [issue("", "server-fault", "something went wrong within the program")];
}

function shortened(text: string): string {
  return text.length > 120 ? `${text.slice(0, 119)}…` : text;
}
