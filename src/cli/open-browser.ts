import { spawn } from "node:child_process";

/** The program that shows a page, on each platform, with what stands before the address. */
export function browserCommand(platform: string): readonly string[] {
  if (platform === "darwin") return ["open"];
  // The empty title keeps the shell from taking the address for one.
  if (platform === "win32") return ["cmd", "/c", "start", '""'];
  return ["xdg-open"];
}

/** Asks the platform to show an address; where it can't, nothing happens: the address is printed all the same. */
export function openBrowser(address: string): void {
  const [command = "", ...before] = browserCommand(process.platform);
  const child = spawn(command, [...before, address], { stdio: "ignore", detached: true });
  child.on("error", () => {});
  child.unref();
}
