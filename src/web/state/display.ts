export type Display = "day" | "night";

const KEY = "athwart.display";

/** The display chosen here before; null where none was. */
function chosenDisplay(): Display | null {
  try {
    const kept = localStorage.getItem(KEY);
    return kept === "day" || kept === "night" ? kept : null;
  } catch {
    return null;
  }
}

/** Sets the display that was chosen before, else the one that the computer asks for. */
export function startDisplay(): void {
  setOnPage(chosenDisplay() ?? (matchMedia("(prefers-color-scheme: dark)").matches ? "night" : "day"));
}

/** The display that the page stands in, and whether it does so because the computer asks for a dark one and nobody chose. */
export function displayNow(): { readonly display: Display; readonly asComputerAsks: boolean } {
  const display = document.documentElement.dataset["display"] === "night" ? "night" : "day";
  return { display, asComputerAsks: display === "night" && chosenDisplay() === null };
}

/** Changes the display, and keeps it for the next time. */
export function chooseDisplay(display: Display): void {
  setOnPage(display);
  try {
    localStorage.setItem(KEY, display);
  } catch {
    // It stands until the page is closed.
  }
}

function setOnPage(display: Display): void {
  document.documentElement.dataset["display"] = display;
}
