import type { Oddities } from "./oddities.ts";
import type { QuantityGroup } from "./quantities.ts";

/** Counts a group's values that can't be, or hardly, and tells of them. Of a vector the length is looked at too: each part may be sound where it isn't. */
export class ValueCheck {
  private readonly group: QuantityGroup;
  private implausible = 0;
  private worst = 0;
  private doubtful = 0;
  private mostDoubtful = 0;

  constructor(group: QuantityGroup) {
    this.group = group;
  }

  /** Whether a quantity can have this value, SI. */
  isPossible(value: number): boolean {
    const { least, greatest } = this.group;
    if (value >= least && value <= greatest) return true;
    this.implausible++;
    if (Math.abs(value) > Math.abs(this.worst)) this.worst = value;
    return false;
  }

  /** Whether a node can have this value alone, itself possible. Doubtful ones are counted here. */
  isPossibleAlone(value: number): boolean {
    return this.isSizePossible(value);
  }

  /** Whether a node can have these two together, each of them possible. Doubtful ones are counted here. */
  isPossibleTogether(first: number, second: number): boolean {
    return this.isSizePossible(this.group.unit === "speed" ? Math.sqrt(first * first + second * second) : 0);
  }

  private isSizePossible(size: number): boolean {
    const { greatest, doubtfulBeyond } = this.group;
    if (size > greatest) return this.isPossible(size);
    if (Math.abs(size) > doubtfulBeyond) {
      this.doubtful++;
      if (Math.abs(size) > Math.abs(this.mostDoubtful)) this.mostDoubtful = size;
    }
    return true;
  }

  tell(oddities: Oddities): void {
    const { name, unit, doubtfulBeyond } = this.group;
    if (this.implausible > 0) {
      const said = `${this.implausible} values of the ${name}, such as ${Number(this.worst.toPrecision(4))}, can't be; they are taken as missing.`;
      oddities.tell("value-implausible", said);
    }
    if (this.doubtful > 0) {
      const said = `${this.doubtful} values of the ${name} are beyond ${doubtfulBeyond}${unitWords[unit]}, up to ${Number(this.mostDoubtful.toPrecision(4))}: hardly ever met; they are used as they stand.`;
      oddities.tell("value-doubtful", said);
    }
  }
}

const unitWords: Readonly<Record<QuantityGroup["unit"], string>> = { speed: " m/s", length: " m", duration: " s", none: "" };
