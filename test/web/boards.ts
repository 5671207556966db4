import type { BoardTold, LineTold } from "../../src/api/index.ts";

/** A made-up line of a board, leaving at an instant. */
export function lineLeaving(departAt: string, more: Partial<LineTold> = {}): LineTold {
  return {
    departAt,
    clock: departAt.slice(11, 16),
    light: "day",
    verdict: "open",
    margin: 0.5,
    figure: "+0.50",
    inTen: 9,
    words: "gusts 20 kn",
    when: "Thu 10:00",
    reason: "gusts",
    hand: "7\u00a0h\u00a020",
    door: "dark at the entrance",
    ...more,
  };
}

/** A made-up board with a line every so many hours, a day of 24 hours a block. */
export function boardOfDays(dayCount: number, everyHours: number, best: string | null = null): BoardTold {
  const days = Array.from({ length: dayCount }, (_, day) => ({
    weekday: ["Monday", "Tuesday", "Wednesday"][day % 3] ?? "",
    date: `${day + 1} June`,
    sun: null,
    lines: Array.from({ length: 24 / everyHours }, (_, line) =>
      lineLeaving(new Date(Date.UTC(2030, 5, day + 1, line * everyHours)).toISOString().replace(":00.000Z", "Z")),
    ),
  }));
  return {
    schema: "athwart.board/1",
    name: "One Quay to Other Quay",
    invented: true,
    boat: "A boat.",
    zones: "UTC.",
    zone: "UTC",
    answer: ["Leave."],
    best,
    days,
    marginalBelow: 0.15,
    key: [],
    speed: { key: "boat.power.speed", value: "5.6 kn" },
    limits: [{ key: "wind", name: "wind", happy: "14 kn", never: "22 kn" }],
    toSet: [{ key: "visibility", name: "visibility", happy: "5 nm", never: "1 nm" }],
    unset: "",
    asides: [],
    sources: [],
    restsOn: [],
    safety: "A planning aid; not for navigation.",
  };
}
