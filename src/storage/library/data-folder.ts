import { posix, win32 } from "node:path";

/** What the data folder is told from. */
export interface Surroundings {
  readonly env: Readonly<Record<string, string | undefined>>;
  readonly platform: string;
  /** The user's own folder. */
  readonly home: string;
}

/** Where passages and files are kept: `ATHWART_HOME`, else the platform's own place for what a program keeps. */
export function dataFolder({ env, platform, home }: Surroundings): string {
  const { join } = platform === "win32" ? win32 : posix;
  const named = env["ATHWART_HOME"];
  if (named !== undefined && named !== "") return named;
  if (platform === "win32") return join(env["LOCALAPPDATA"] || join(home, "AppData", "Local"), "athwart");
  if (platform === "darwin") return join(home, "Library", "Application Support", "athwart");
  const data = env["XDG_DATA_HOME"];
  // The XDG rules pass over a relative path.
  return join(data?.startsWith("/") ? data : join(home, ".local", "share"), "athwart");
}
