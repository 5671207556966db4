import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";
import helmet from "@fastify/helmet";
import multipart from "@fastify/multipart";
import swagger from "@fastify/swagger";
import fastify, { type FastifyInstance } from "fastify";
import { serializerCompiler, validatorCompiler, type ZodTypeProvider } from "fastify-type-provider-zod";
import { BadInput } from "../core/answers/index.ts";
import { adoptFile, DEMOS, FIRST_DEMO, Library } from "../storage/index.ts";
import { describeApi } from "./describe-api.ts";
import { answerMalformed, tellFaults } from "./faults.ts";
import { Office } from "./office.ts";
import { MOST_FILES } from "./receive.ts";
import { answerRoutes } from "./routes/answers.ts";
import { eventRoutes } from "./routes/events.ts";
import { fileRoutes } from "./routes/files.ts";
import { pageRoutes } from "./routes/page.ts";
import { passageRoutes } from "./routes/passages.ts";
import { refuseOtherOrigins } from "./same-origin.ts";

/** The longest body that is no form of files: a passage's text in JSON. */
const LONGEST_BODY_BYTES = 9_000_000;

export interface ServerOptions {
  /** The data folder: `dataFolder()`. */
  readonly home: string;
  /** The passage that is shown first, taken into the library; a demo's own path: that demo; left out or null: the first demo. */
  readonly open?: string | null;
  /** The built page; left out: that of this package. */
  readonly page?: string;
  /** Seconds of the UTC epoch; left out: the machine's clock. */
  readonly now?: () => number;
  /** Hears what went wrong within: never a position, a name or a text of a passage. */
  readonly fault?: (why: string) => void;
  /** What the desk's thread runs; left out: this package's own. */
  readonly deskScript?: URL;
  /** Answers made with the build, which `npm start` makes of the demo; left out: none. */
  readonly built?: string | null;
}

/** Where `npm start` lays them. */
export const BUILT_ANSWERS = fileURLToPath(new URL("../../dist/kept", import.meta.url));

/** A server that is not listening yet; `passageId`: the passage that was opened with it, whose run has begun. */
export interface CreatedServer {
  readonly server: FastifyInstance;
  readonly passageId: string;
  readonly office: Office;
}

const BUILT_PAGE = fileURLToPath(new URL("../../dist/web", import.meta.url));

/**
 * Builds the server on a data folder: library, desk, routes; nothing listens yet (`listen` does). The demos are taken in, and the passage that
 * was named; its run begins at once. Throws `BadInput`: a data folder that can't be used, a passage that can't be read.
 */
export async function createServer(options: ServerOptions): Promise<CreatedServer> {
  const { home, open = null, now = () => Math.floor(Date.now() / 1000), fault = () => {} } = options;
  const library = await Library.open(home, now);
  if (!library.ok) throw new BadInput(library.issues);
  const office = new Office({
    library: library.value,
    now,
    fault,
    builtFolder: options.built ?? null,
    ...(options.deskScript === undefined ? {} : { deskScript: options.deskScript }),
  });
  try {
    for (const { path, id } of DEMOS) {
      const taken = await adoptFile(library.value, path, { origin: "demo", id });
      if (!taken.ok) throw new BadInput(taken.issues);
    }
    const demo = open === null ? FIRST_DEMO : DEMOS.find(({ path }) => path === open);
    const opened = open === null || demo !== undefined ? null : await adoptFile(library.value, open, { origin: "opened" });
    if (opened?.ok === false) throw new BadInput(opened.issues);
    const passageId = opened?.value.id ?? (demo ?? FIRST_DEMO).id;
    // Where no board is kept a run begins while the routes are made ready; else they have the processor, and the desk is begun after them.
    if (!office.isBoardKept(passageId)) void office.board(passageId);
    const server = await buildServer(office, options, fault);
    server.addHook("onListen", () => {
      setTimeout(() => !office.isClosed && void office.board(passageId), DESK_AFTER_MILLISECONDS).unref();
    });
    return { server, passageId, office };
  } catch (error) {
    await office.close();
    throw error;
  }
}

/** A page that is opened at once gets what is kept before the desk takes a core. Ours. */
const DESK_AFTER_MILLISECONDS = 250;

function notOurs(): never {
  throw new Error("a schema came to a compiler that is not ours");
}

async function buildServer(office: Office, options: ServerOptions, fault: (why: string) => void): Promise<FastifyInstance> {
  const server = fastify({
    bodyLimit: LONGEST_BODY_BYTES,
    forceCloseConnections: true,
    frameworkErrors: answerMalformed,
    routerOptions: { maxParamLength: 200 },
    // Those that the framework would load by itself are never asked: ours are set below.
    schemaController: { compilersFactory: { buildValidator: notOurs, buildSerializer: notOurs } },
  }).withTypeProvider<ZodTypeProvider>();
  server.setValidatorCompiler(validatorCompiler);
  server.setSerializerCompiler(serializerCompiler);
  tellFaults(server, fault);
  refuseOtherOrigins(server);
  server.addHook("onClose", () => office.close());
  await server.register(helmet, {
    contentSecurityPolicy: {
      useDefaults: false,
      directives: {
        defaultSrc: ["'self'"],
        // Figures set their own lengths and inks as attributes; scripts stay outside the page.
        styleSrc: ["'self'", "'unsafe-inline'"],
        imgSrc: ["'self'", "data:"],
        objectSrc: ["'none'"],
        baseUri: ["'none'"],
        formAction: ["'self'"],
        frameAncestors: ["'self'"],
      },
    },
    strictTransportSecurity: false,
    referrerPolicy: { policy: "no-referrer" },
  });
  await server.register(multipart, {
    limits: { files: MOST_FILES, parts: MOST_FILES + 4, fields: 4, fieldSize: 1000, headerPairs: 20, fileSize: Number.POSITIVE_INFINITY },
    throwFileSizeLimit: true,
  });
  await server.register(swagger, describeApi);
  passageRoutes(server, office);
  fileRoutes(server, office);
  answerRoutes(server, office);
  eventRoutes(server, office);
  server.get("/api/openapi.json", { schema: { hide: true } }, (_request, reply) =>
    reply.header("cache-control", "no-store").send(server.swagger()),
  );
  const page = options.page ?? BUILT_PAGE;
  await pageRoutes(server, existsSync(page) ? page : null);
  return server;
}
