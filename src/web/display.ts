import { startDisplay } from "./state/display.ts";

// Runs before the first paint, so that a page opened at night never flashes white.
startDisplay();
