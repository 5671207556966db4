import type { FastifyBaseLogger, FastifyInstance, RawReplyDefaultExpression, RawRequestDefaultExpression, RawServerDefault } from "fastify";
import type { ZodTypeProvider } from "fastify-type-provider-zod";

declare module "fastify" {
  interface FastifyContextConfig {
    /** The parts of the form that a route takes, for the description of the API. */
    readonly form?: readonly ("passage" | "file")[];
  }
}

/** The server as routes see it: what is asked and answered has the types of its schemas. */
export type Server = FastifyInstance<
  RawServerDefault,
  RawRequestDefaultExpression,
  RawReplyDefaultExpression,
  FastifyBaseLogger,
  ZodTypeProvider
>;
