import type { BoardTold, DepartureTold } from "../api/index.ts";
import { watchConnection } from "./ask/connection.ts";
import {
  addFiles,
  afterArrivalOf,
  boardOf,
  departureOf,
  exportAddress,
  listPassages,
  openPassage,
  paperOf,
  passageOf,
  removePassage,
} from "./ask/passages.ts";
import type { KeptPassage } from "./ask/shapes.ts";
import { afterPaint } from "./dom/after-paint.ts";
import { announce } from "./dom/announce.ts";
import { byId, element, fill } from "./dom/element.ts";
import { editing } from "./editing.ts";
import { acts } from "./parts/acts.ts";
import { afterPart } from "./parts/after.ts";
import { boardView } from "./parts/board-view.ts";
import { chosenPart } from "./parts/chosen.ts";
import { dropping } from "./parts/dropping.ts";
import { fileDesk } from "./parts/file-desk.ts";
import { issueList } from "./parts/issues.ts";
import { showMasthead } from "./parts/masthead.ts";
import { notice } from "./parts/notice.ts";
import { paper } from "./parts/paper.ts";
import { passagesList } from "./parts/passages-list.ts";
import { steerPart } from "./parts/steer.ts";
import { showWhen } from "./parts/when.ts";
import { wrongPart } from "./parts/wrong.ts";
import { running } from "./running.ts";
import { readAddress, writeAddress } from "./state/address.ts";
import { departuresOf } from "./state/departures.ts";
import type { OpenSheet } from "./state/open-sheet.ts";
import { remember, remembered } from "./state/remembered.ts";
import { lineAt, linesOf, openingChoice } from "./state/walk-board.ts";

const DEMO = "demo";
const LAST_PASSAGE = "athwart.passage";
const NEIGHBOURS = [1, -1, 2, -2];
/** A browser allows so many changes of address in a while; they wait for the choice to rest. */
const ADDRESS_REST_MILLISECONDS = 250;
const GONE =
  "Athwart has stopped answering. What stands here is from before. What you type is kept in this browser, and sent when it is back.";

/** The whole sheet: what is open, what is chosen, and who is told when either changes. */
export function startSheet(): void {
  const open: OpenSheet = { passageId: DEMO, passage: null, board: null, chosenAt: null, wantedAt: null };
  const connection = watchConnection(
    async () => (await listPassages()).kind === "told",
    (there) => {
      notice(there ? null : GONE);
      if (!there) return;
      announce("Athwart is back.");
      void reload();
    },
  );
  const runs = running(open, connection, { board: showBoard, reload });
  const edits = editing(open, connection, { passage: takePassage, board: showBoard, run: runs.follow });
  const chosen = chosenPart();
  const steer = steerPart();
  const after = afterPart((at) => afterArrivalOf(open.passageId, at), connection.lost);
  const wrong = wrongPart(after.place);
  const printed = paper((at) => paperOf(open.passageId, at), announce);
  const view = boardView(choose);
  const later = afterPaint();

  const departures = departuresOf((at, signal) => departureOf(open.passageId, at, signal), {
    waiting: () => setReckoning(true),
    shown: (at, departure) => later.ask(() => showDeparture(at, departure)),
    refused(_at, answer) {
      setReckoning(false);
      if (answer.kind === "unreachable") connection.lost();
      else if (answer.run !== null) runs.follow(answer.run);
      else {
        steer.empty(issueList(answer.issues));
        wrong.empty();
      }
    },
  });

  function setReckoning(going: boolean): void {
    for (const body of [byId("steer-body"), byId("wrong-body")]) {
      body.classList.toggle("reckoning", going);
      body.setAttribute("aria-busy", String(going));
    }
  }

  function showDeparture(at: string, departure: DepartureTold): void {
    if (at !== open.chosenAt) return;
    setReckoning(false);
    chosen.departure(departure, open.board?.marginalBelow ?? 0);
    steer.show(departure);
    wrong.show(departure);
    after.departure(at);
    printed.departure(at);
    const [order] = departure.order;
    if (order !== undefined) announce(`${departure.leaving} ${order}`);
  }

  function choose(at: string, byKey: boolean): void {
    if (open.board === null) return;
    open.chosenAt = at;
    view.mark(at, byKey);
    chosen.line(open.board, at);
    const lines = linesOf(open.board);
    const here = lines.findIndex((line) => line.departAt === at);
    // What the next frame shows is the line and its words; all else waits until that is painted.
    departures.want(
      at,
      NEIGHBOURS.map((step) => lines[here + step]?.departAt).filter((one) => one !== undefined),
    );
    keepAddress();
  }

  let addressTimer = 0;
  function keepAddress(): void {
    clearTimeout(addressTimer);
    addressTimer = window.setTimeout(() => {
      history.replaceState(null, "", writeAddress({ passageId: open.passageId, departAt: open.chosenAt }));
      remember(LAST_PASSAGE, open.passageId);
    }, ADDRESS_REST_MILLISECONDS);
  }

  function showBoard(board: BoardTold): void {
    const at = openingChoice(board, open.chosenAt ?? open.wantedAt);
    open.board = board;
    departures.forget();
    printed.forget();
    byId("when").classList.remove("old");
    showMasthead(board);
    showWhen(board);
    view.show(board, at);
    edits.limits.take(board);
    const [answer] = board.answer;
    if (answer !== undefined) announce(answer);
    if (at !== null) {
      choose(at, false);
      return;
    }
    open.chosenAt = null;
    chosen.empty();
    steer.empty(element("p", { class: "quiet" }, "No departure was tried."));
    wrong.empty();
    printed.departure(null);
  }

  /** Takes the passage and its board as the server has them now, or follows the run that will bring the board. */
  async function reload(): Promise<void> {
    const id = open.passageId;
    const [kept, told] = await Promise.all([passageOf(id), boardOf(id)]);
    if (id !== open.passageId) return;
    if (kept.kind === "unreachable" || told.kind === "unreachable") return connection.lost();
    if (kept.kind === "refused" && kept.status === 404 && id !== DEMO) return openSheet(DEMO, null);
    if (kept.kind === "told") takePassage(kept.value);
    if (told.kind === "told") {
      runs.bar.over();
      showBoard(told.value);
    } else if (told.kind === "refused") {
      if (told.run !== null) runs.follow(told.run);
      else if (told.status === 409) await runs.start();
      else runs.bar.failed(told.issues, () => void reload());
    }
    await edits.resume();
  }

  function takePassage(kept: KeptPassage): void {
    open.passage = kept;
    edits.limits.steps(kept.canUndo, kept.canRedo);
    head.exportFrom(exportAddress(kept.id), kept.name);
    if (open.board === null) fill(byId("title"), kept.name);
  }

  function openSheet(id: string, departAt: string | null): void {
    Object.assign(open, { passageId: id, passage: null, board: null, chosenAt: null, wantedAt: departAt });
    runs.leave();
    departures.forget();
    printed.departure(null);
    edits.openPassage();
    view.empty("");
    chosen.empty();
    for (const part of ["limits", "answer", "asides", "when-note"]) fill(byId(part));
    steer.empty();
    wrong.empty();
    void reload();
  }

  const desk = fileDesk({
    open: openPassage,
    opened: (listed) => openSheet(listed.id, null),
    add: (files) => addFiles(open.passageId, files),
    added: ({ run }) => {
      if (run) runs.follow(run.id);
    },
    zone: () => open.board?.zone ?? "UTC",
    use: edits.use,
    unreachable: connection.lost,
  });
  const list = passagesList({
    list: listPassages,
    open: (id) => openSheet(id, null),
    remove: async (id) => {
      const answer = await removePassage(id);
      if (answer.kind === "told" && id === open.passageId) openSheet(DEMO, null);
      return answer;
    },
    current: () => open.passageId,
    unreachable: connection.lost,
  });
  const takeFiles = (files: readonly File[]): void => void desk.take(files);
  const head = acts({ open: takeFiles, print: () => void printed.print() }, list);
  dropping(takeFiles);

  document.addEventListener("keydown", (event) => {
    if (!(event.ctrlKey || event.metaKey) || event.altKey || event.key.toLowerCase() !== "z" || isTextField(event.target)) return;
    event.preventDefault();
    void edits.step(event.shiftKey ? "redo" : "undo");
  });
  document.addEventListener("visibilitychange", async () => {
    if (document.visibilityState === "visible" && (await listPassages()).kind === "unreachable") connection.lost();
  });
  window.addEventListener("hashchange", () => {
    const { passageId, departAt } = readAddress(location.hash);
    if (passageId !== null && passageId !== open.passageId && document.getElementById(passageId) === null) openSheet(passageId, departAt);
    else if (departAt !== null && open.board !== null && lineAt(open.board, departAt) !== null) choose(departAt, false);
  });

  const address = readAddress(location.hash);
  openSheet(address.passageId ?? remembered(LAST_PASSAGE) ?? DEMO, address.departAt);
}

function isTextField(target: EventTarget | null): boolean {
  return target instanceof HTMLTextAreaElement || (target instanceof HTMLInputElement && target.type === "text");
}
