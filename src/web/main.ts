import { startSheet } from "./sheet.ts";
import { startDisplay } from "./state/display.ts";

// Again: either script may come first.
startDisplay();
startSheet();
