import { BadInput, issue } from "../core/answers/index.ts";
import type { CreatedServer } from "./create-server.ts";

/** The page's port unless another is named: always the same, so that the browser knows the page again. Ours. */
export const DEFAULT_PORT = 4725;

/**
 * Listens on this computer alone; the address of the page, by its loopback number. Without a port named it is `DEFAULT_PORT`, or any that is free
 * where that is taken. Throws `BadInput` where the named port can't be had.
 */
export async function listen({ server }: CreatedServer, port: number | null = null): Promise<string> {
  const host = "127.0.0.1";
  try {
    return await server.listen({ host, port: port ?? DEFAULT_PORT });
  } catch (error) {
    const code = error instanceof Error && "code" in error ? String(error.code) : "";
    if (code !== "EADDRINUSE" && code !== "EACCES") throw error;
    if (port === null) return server.listen({ host, port: 0 });
    const why = code === "EACCES" ? "may not be used by this user" : "is used by another program";
    throw new BadInput([issue("--port", "argument-not-understood", `port ${port} ${why}`, "Name another port, or none.")]);
  }
}
