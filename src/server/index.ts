/**
 * Server: the HTTP API and the built page, for the browser on this computer and nobody else. It keeps the library, hands what is to be
 * reckoned to a desk (a thread of its own) and passes on what that answers; it reckons nothing itself. Building it is apart from
 * listening. JSON as `api` has it; every refusal is `athwart.issues/1`. Seconds of the UTC epoch inside, ISO 8601 outside.
 */
export { BUILT_ANSWERS, type CreatedServer, createServer, type ServerOptions } from "./create-server.ts";
export { DEFAULT_PORT, listen } from "./listen.ts";
