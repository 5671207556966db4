import { strayOf, type Track } from "../../core/passage/index.ts";
import { type ComparedWay, type CrossAnswer, steeringCompass } from "../../core/plan/index.ts";
import {
  boardsInWords,
  costInWords,
  crossCheckedInWords,
  duration,
  lanesInWords,
  miles,
  noAnswerInWords,
  ordersInALine,
  signedDuration,
  tacksInWords,
  wayName,
  wayVerdictInWords,
} from "../../words/index.ts";
import { burnKnown } from "../leave-json.ts";
import type { WayTold } from "./departure-told.ts";

/** A way with the letter that stands on its line. */
export interface Lettered {
  readonly letter: string;
  readonly role: WayTold["role"];
  readonly key: string;
  readonly name: string;
  /** Null where it does not arrive. */
  readonly track: Track | null;
  /** Null for the fastest. */
  readonly compared: ComparedWay | null;
}

/** The ways in the order in which they are told: the order, the yardstick, the others by their arrival, then those that don't arrive. */
export function letteredWays({ ways, fastest, advised }: CrossAnswer): readonly Lettered[] {
  const arrivalOf = ({ way }: ComparedWay): number => (way.kind === "arrives" ? way.arrivalAt : Number.POSITIVE_INFINITY);
  const byArrival = ways.toSorted((a, b) => arrivalOf(a) - arrivalOf(b) || 0);
  const told = (one: ComparedWay): Omit<Lettered, "letter"> => ({
    role: one.way === advised ? "order" : "other",
    key: one.way.name,
    name: wayName(one.way.name),
    track: one.way.kind === "arrives" ? one.way.track : null,
    compared: one,
  });
  const yardstick: readonly Omit<Lettered, "letter">[] =
    fastest === null
      ? []
      : [
          {
            role: "yardstick",
            key: "fastest",
            name: fastest.kind === "arrives" && fastest.underSail !== null ? "fastest under sail" : "the fastest there is",
            track: fastest.kind === "arrives" ? fastest.track : null,
            compared: null,
          },
        ];
  const order = byArrival.filter(({ way }) => way === advised).map(told);
  const others = byArrival.filter(({ way }) => way !== advised).map(told);
  return [...order, ...yardstick, ...others].map((one, i) => ({ letter: String.fromCharCode(65 + i), ...one }));
}

/** The ways side by side, told. */
export function waysToldOf(answer: CrossAnswer): WayTold[] {
  return letteredWays(answer).map((one) => (one.compared === null ? yardstickTold(answer, one) : wayTold(answer, one, one.compared)));
}

const NOT_ARRIVED = { takes: "", costs: "", up: "", down: "", fuel: "", verdict: null, verdictWords: "", orders: "", otherwise: [] };

function wayTold(answer: CrossAnswer, { letter, role, key, name }: Lettered, compared: ComparedWay): WayTold {
  const { prepared, openWaterFrom } = answer;
  const { way, costSeconds, judged, otherwise } = compared;
  const zone = prepared.passage.shipZone;
  const head = { letter, name, key, role };
  if (way.kind === "fails") return { ...head, ...NOT_ARRIVED, arrives: false, why: noAnswerInWords(way.why, zone) };
  const side = answer.stream?.downStreamSide ?? 1;
  return {
    ...head,
    arrives: true,
    why: null,
    takes: duration(way.arrivalAt - way.departAt),
    costs: costInWords(costSeconds),
    up: miles(way.upStreamMetres),
    down: miles(way.downStreamMetres),
    fuel: burnKnown(prepared) ? `${way.fuelLitres.toFixed(0)} L` : "",
    verdict: judged === null ? null : judged.verdict.kind,
    verdictWords: wayVerdictInWords(compared, answer),
    orders: [ordersInALine(prepared, steeringCompass(prepared, openWaterFrom), way), lanesInWords(way, zone)]
      .filter((words) => words !== null)
      .join("; "),
    otherwise: otherwise.map(({ streamFactor, carried, addedSeconds }) => {
      const off = carried.offAtClearMetres;
      const where = off === null ? "" : `, ${miles(Math.abs(off))} nm ${off * side >= 0 ? "down" : "up"}-stream`;
      return { streamFactor, words: addedSeconds === null ? "fails" : `${signedDuration(addedSeconds)}${where}` };
    }),
  };
}

function yardstickTold(answer: CrossAnswer, { letter, role, key, name }: Lettered): WayTold {
  const { fastest, prepared, openWaterFrom, ways } = answer;
  const head = { letter, name, key, role, ...NOT_ARRIVED };
  const zone = prepared.passage.shipZone;
  if (fastest === null) throw new Error("a yardstick was told of that was not sought");
  if (fastest.kind === "fails") return { ...head, arrives: false, why: noAnswerInWords(fastest.why, zone) };
  const { underSail } = fastest;
  const earliest = Math.min(...ways.map(({ way }) => (way.kind === "arrives" ? way.arrivalAt : Number.POSITIVE_INFINITY)));
  const stray = strayOf(fastest.track, prepared.line, answer.stream?.downStreamSide ?? 1);
  const plan = underSail === null ? "" : boardsInWords(underSail, prepared, steeringCompass(prepared, openWaterFrom));
  const tacks = underSail === null || underSail.plan.kind === "fails" ? "" : `; its plan ${tacksInWords(underSail.plan)}`;
  return {
    ...head,
    arrives: true,
    why: null,
    takes: duration(fastest.arrivalAt - fastest.departAt),
    costs: fastest.arrivalAt <= earliest + 30 ? "best" : signedDuration(fastest.arrivalAt - earliest),
    up: miles(stray.upMetres),
    down: miles(stray.downMetres),
    verdictWords: `${crossCheckedInWords(fastest)}${tacks}`,
    orders: plan,
  };
}
