import type { CodeTable } from "../code-table.ts";

/** Where moving a boat through moving water has no answer. */
export const passageCodes = {
  "cannot-hold": {
    kind: "noAnswer",
    meaning: "The current across the track is stronger than the boat: the track can't be held.",
    whatToDo: "Choose another way to steer, another departure, or a faster speed through the water.",
  },
  stalled: {
    kind: "noAnswer",
    meaning: "The boat makes no more way toward the destination.",
    whatToDo: "Choose another way to steer, another departure, or a faster speed through the water.",
  },
  "no-way": {
    kind: "noAnswer",
    meaning: "The boat makes no way under sail: becalmed, or closer to the wind than she can sail. Beating to windward is not reckoned.",
    whatToDo: "Choose a departure with a freer wind, or let the engine help (engineRule, or goes: motor-sail).",
  },
  "carried-away": {
    kind: "noAnswer",
    meaning: "The boat is carried beyond the waters around the passage.",
    whatToDo: "Choose another way to steer, another departure, or a faster speed through the water.",
  },
  "across-land": {
    kind: "noAnswer",
    meaning: "The way leads across land, or through an area that is kept out of.",
    whatToDo:
      "Choose another way to steer or another departure; if the coastline is wrong there, give your own (land in the passage file).",
  },
  "not-stated": {
    kind: "noAnswer",
    meaning: "A limit is set on something that can't be reckoned from what the passage file states.",
    whatToDo: "State what is named in the passage file, or take the limit out; until then the departure is no better than marginal.",
  },
  unreachable: {
    kind: "noAnswer",
    meaning: "No single heading leads to the destination in this water.",
    whatToDo: "Choose another departure, start further up-stream, or a faster speed through the water.",
  },
  "source-lacks-quantity": {
    kind: "input",
    meaning: "A source that the passage names holds nothing of what it is named for.",
    whatToDo: "Run athwart inspect on the file to see what it holds, and name one that gives the quantity.",
  },
} as const satisfies CodeTable;
