import { button, byId, element, fill } from "../dom/element.ts";
import { chooseDisplay, displayNow } from "../state/display.ts";

export interface ActsWork {
  readonly open: (files: readonly File[]) => void;
  readonly print: () => void;
}

export interface Acts {
  /** Where the passage that is open is had as a file. */
  readonly exportFrom: (address: string, name: string) => void;
}

/** What can be done with the sheet as a whole, in a line at its head. */
export function acts(work: ActsWork, passages: HTMLElement): Acts {
  const picker = element("input", {
    type: "file",
    multiple: true,
    class: "visually-hidden",
    id: "file-picker",
    tabindex: "-1",
    "aria-label": "Files to open",
  });
  picker.addEventListener("change", () => {
    const files = [...(picker.files ?? [])];
    picker.value = "";
    work.open(files);
  });
  const open = button("Open a passage, or add files", () => picker.click(), { class: "act", id: "open-files" });
  const save = element("a", { class: "act", id: "export", href: "#" }, "Save as a file");
  const print = button("Print, two pages", work.print, { class: "act", id: "print" });
  const display = button(
    "",
    () => {
      chooseDisplay(displayNow().display === "night" ? "day" : "night");
      tell();
    },
    { class: "act", id: "display" },
  );
  const why = element("span", { class: "why-night" });
  const tell = (): void => {
    const now = displayNow();
    display.textContent = now.display === "night" ? "Day, ink on paper" : "Night, red on black";
    why.textContent = now.asComputerAsks ? "night, since this computer asks for a dark display" : "";
  };
  tell();
  fill(byId("acts"), picker, open, passages, save, print, display, why);
  return {
    exportFrom(address, name) {
      save.href = address;
      save.download = `${
        name
          .replaceAll(/[^\p{Letter}\p{Number}]+/gu, "-")
          .replaceAll(/^-|-$/g, "")
          .toLowerCase() || "passage"
      }.yaml`;
    },
  };
}
