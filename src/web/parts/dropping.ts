import { byId } from "../dom/element.ts";

/** Takes files that are dropped anywhere on the page, and says so while they hang over it. */
export function dropping(take: (files: readonly File[]) => void): void {
  const sign = byId("drop-here");
  let depth = 0;
  const withFiles = (event: DragEvent): boolean => event.dataTransfer?.types.includes("Files") ?? false;
  const show = (shown: boolean): void => {
    sign.hidden = !shown;
  };
  document.addEventListener("dragenter", (event) => {
    if (!withFiles(event)) return;
    depth += 1;
    show(true);
  });
  document.addEventListener("dragleave", (event) => {
    if (!withFiles(event)) return;
    depth = Math.max(0, depth - 1);
    show(depth > 0);
  });
  document.addEventListener("dragover", (event) => {
    if (withFiles(event)) event.preventDefault();
  });
  document.addEventListener("drop", (event) => {
    depth = 0;
    show(false);
    if (!withFiles(event)) return;
    event.preventDefault();
    take([...(event.dataTransfer?.files ?? [])]);
  });
}
