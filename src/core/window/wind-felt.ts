export { type Range, speedRangeOf, windAgainstRangeOf } from "../weather/index.ts";
