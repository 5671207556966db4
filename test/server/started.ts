import { existsSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { type CreatedServer, createServer, type ServerOptions } from "../../src/server/index.ts";

const HOST = "127.0.0.1:4725";
/** What the page's own requests carry. */
export const FROM_PAGE = { host: HOST, origin: `http://${HOST}`, "sec-fetch-site": "same-origin" };

const desk = new URL("../../dist/server/desk/desk-worker.js", import.meta.url);

export interface Answer {
  readonly status: number;
  readonly type: string;
  readonly text: string;
  /** The body as JSON; undefined where it is none. */
  // biome-ignore lint/suspicious/noExplicitAny: tests look into answers of every shape.
  readonly json: any;
}

export interface Started extends CreatedServer {
  readonly home: string;
  /** What went wrong within. */
  readonly faults: string[];
  ask(method: string, url: string, body?: unknown, headers?: Record<string, string>): Promise<Answer>;
  send(url: string, form: Form): Promise<Answer>;
  /** Waits for the board, following the run that brings it; every event of the run. */
  board(id: string): Promise<Answer>;
  stop(): Promise<void>;
}

/** A server in this process on a folder of its own, its desk as it was built; with `home` on that folder, which then stays. */
export async function started(options: Partial<ServerOptions> = {}): Promise<Started> {
  if (!existsSync(fileURLToPath(desk))) throw new Error("build it first: npm run build");
  const home = options.home ?? mkdtempSync(join(tmpdir(), "athwart-"));
  const faults: string[] = [];
  const made = await createServer({
    page: join(home, "no page"),
    ...options,
    home,
    deskScript: options.deskScript ?? desk,
    fault: (why) => faults.push(why),
  });
  const ask: Started["ask"] = async (method, url, body, headers = {}) => {
    const payload = body === undefined ? {} : { payload: typeof body === "string" || Buffer.isBuffer(body) ? body : JSON.stringify(body) };
    const type = body === undefined ? {} : { "content-type": "application/json" };
    const answer = await made.server.inject({ method: method as "GET", url, headers: { ...FROM_PAGE, ...type, ...headers }, ...payload });
    return {
      status: answer.statusCode,
      type: String(answer.headers["content-type"] ?? ""),
      text: answer.payload,
      json: parsed(answer.payload),
    };
  };
  return {
    ...made,
    home,
    faults,
    ask,
    send: (url, form) => ask("POST", url, form.body, { "content-type": form.type }),
    async board(id) {
      for (let tries = 0; tries < 600; tries++) {
        const board = await ask("GET", `/api/passages/${id}/board`);
        if (board.status !== 409) return board;
        await new Promise((resolve) => setTimeout(resolve, 100));
      }
      throw new Error("the board never came");
    },
    async stop() {
      await made.server.close();
      if (options.home === undefined) rmSync(home, { recursive: true, force: true });
    },
  };
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

export interface Form {
  readonly type: string;
  readonly body: Buffer;
}

export interface Part {
  readonly field: string;
  readonly name?: string;
  readonly bytes: Buffer | string;
}

/** A form as a browser sends it (RFC 7578). */
export function form(...parts: readonly Part[]): Form {
  const boundary = "----boundary-of-a-test";
  const pieces = parts.flatMap(({ field, name, bytes }) => {
    const file = name === undefined ? "" : `; filename="${name}"\r\nContent-Type: application/octet-stream`;
    return [`--${boundary}\r\nContent-Disposition: form-data; name="${field}"${file}\r\n\r\n`, bytes, "\r\n"];
  });
  const body = Buffer.concat([...pieces, `--${boundary}--\r\n`].map((piece) => Buffer.from(piece)));
  return { type: `multipart/form-data; boundary=${boundary}`, body };
}

export const demoFile = (name: string): Buffer => readFileSync(new URL(`../../demo/morrel/${name}`, import.meta.url));
export const DEMO_TEXT = demoFile("passage.yaml").toString("utf8");
/** The demo with four departures only. */
export const SHORT_TEXT = DEMO_TEXT.replace("until: 2027-04-13 1200", "until: 2027-04-06 1100");

/** A passage of a text, with the demo's files. */
export function passageForm(text: string): Form {
  const files = ["current.nc", "wind.grib2", "letter.txt", "land.geojson"].map((name) => ({ field: "file", name, bytes: demoFile(name) }));
  return form({ field: "passage", name: "passage.yaml", bytes: text }, ...files);
}

export const codesOf = (answer: Answer): string[] => answer.json.issues.map((one: { code: string }) => one.code);
