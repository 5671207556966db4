import type { FastifyInstance, FastifyRequest } from "fastify";
import { issue } from "../core/answers/index.ts";
import { refuse } from "./answer.ts";

/** This computer, by the names that no other can take: a name that leads here may be another's tomorrow (DNS rebinding). */
const LOOPBACK = /^(?:localhost|127(?:\.\d{1,3}){3}|\[::1\])(?::\d{1,5})?$/i;

const READING = new Set(["GET", "HEAD", "OPTIONS"]);

/** Refuses whoever asks by another name than this computer's, and every write that doesn't come from the page itself. */
export function refuseOtherOrigins(server: FastifyInstance): void {
  server.addHook("onRequest", async (request, reply) => {
    const { host } = request.headers;
    if (host === undefined || !LOOPBACK.test(host)) {
      return refuse(reply, [issue("host", "asked-from-elsewhere", "this was asked under a name that is not this computer's own")]);
    }
    if (READING.has(request.method) || isFromPage(request, host)) return undefined;
    return refuse(reply, [issue("origin", "asked-from-elsewhere", "this was not asked by athwart's own page")]);
  });
}

/** Browsers say where a request comes from, in one header or both; what is said must all be this page, and something must be said. */
function isFromPage({ headers }: FastifyRequest, host: string): boolean {
  const { origin } = headers;
  const site = headers["sec-fetch-site"];
  if (origin === undefined && site === undefined) return false;
  return (
    (origin === undefined || origin.toLowerCase() === `http://${host.toLowerCase()}`) && (site === undefined || site === "same-origin")
  );
}
