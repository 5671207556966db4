/**
 * Tidal streams: from constants of their own, from differences to a reference, from tables by hours of high water; their slacks and
 * greatest rates, and a current made of them. Rates in m/s, sets in degrees true, toward; along an axis the flood counts positive.
 */
export { slackLastsSeconds } from "./between-stream-turns.ts";
export { buildStreams } from "./build-streams.ts";
export {
  type CurrentFit,
  heldAgainst,
  LEAST_HELD_AGAINST_SECONDS,
  NOT_FIT_WITHIN_METRES,
  UNFIT_RMS_MPS,
  UNFIT_SHARE,
} from "./current-fit.ts";
export { spansSlower } from "./spans-slower.ts";
export type {
  HourOfStream,
  StatedStream,
  StreamComponent,
  StreamConstant,
  StreamDifferences,
  StreamTable,
} from "./stated-stream.ts";
export { STREAM_NODE_SECONDS } from "./stream-memo.ts";
export { streamsCurrent } from "./streams-current.ts";
export {
  type StreamDoubt,
  type StreamTold,
  type StreamTurn,
  type StreamTurnKind,
  streamNamed,
  type TidalStream,
} from "./tidal-stream.ts";
export { unfitNear } from "./unfit-near.ts";
