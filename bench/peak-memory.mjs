// @ts-check
// Loaded into a program that is measured: as it ends, the most memory it ever held (kB) goes out by descriptor 3.
import { writeSync } from "node:fs";

process.on("exit", () => void writeSync(3, String(process.resourceUsage().maxRSS)));
