import type { Dice } from "./dice.ts";

export const joined = (...parts: readonly Uint8Array[]): Uint8Array => {
  const whole = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
};

/** Whole numbers that readers trip over, for a field of so many bytes that holds `now` in a file of `size` bytes. */
export function tellingNumber(dice: Dice, width: number, now: number, size: number): number {
  const most = 2 ** (8 * width) - 1;
  const sign = 2 ** (8 * width - 1);
  const candidates = [0, 1, most, most - 1, sign, sign - 1, sign + 1, sign + now, now + 1, now - 1, now * 2, now * 10, Math.floor(now / 2)];
  candidates.push(
    size,
    size - 1,
    size + 1,
    20_000_000,
    20_000_001,
    65_536,
    255,
    256,
    dice.next(),
    dice.below(16),
    dice.below(256),
    dice.below(4096),
  );
  const chosen = dice.pick(candidates);
  return ((chosen % (most + 1)) + most + 1) % (most + 1);
}

/** Sets a whole number of 1 to 8 bytes, most significant first unless told. */
export function putNumber(bytes: Uint8Array, at: number, width: number, value: number, isLittle = false): void {
  let rest = value;
  for (let i = 0; i < width; i++) {
    const place = isLittle ? i : width - 1 - i;
    if (at + place < bytes.length) bytes[at + place] = rest % 256;
    rest = Math.floor(rest / 256);
  }
}

export function numberAt(bytes: Uint8Array, at: number, width: number, isLittle = false): number {
  let value = 0;
  for (let i = 0; i < width; i++) value = value * 256 + (bytes[at + (isLittle ? width - 1 - i : i)] ?? 0);
  return value;
}

const FLOATS = [Number.NaN, Number.POSITIVE_INFINITY, -1e30, 9.96921e36, 1e20, -9999, 0, -0, 1e-40, 500, -130, 130, 45, 61, 7, 1e5, 3.4e38];

/** One change that asks nothing of the structure: a bit, a byte, a telling number, a float; a piece out, doubled, moved; the end off. */
export function changeBytes(bytes: Uint8Array, dice: Dice, isLittle = false): Uint8Array {
  if (bytes.length === 0) return bytes;
  const at = dice.below(bytes.length);
  const changed = bytes.slice();
  switch (dice.below(14)) {
    case 0:
    case 1:
    case 2:
      changed[at] = changed[at]! ^ (1 << dice.below(8));
      return changed;
    case 3:
    case 4:
      changed[at] = dice.pick([0, 1, 127, 128, 254, 255, dice.below(256)]);
      return changed;
    case 5:
    case 6:
    case 7: {
      const width = dice.pick([1, 2, 3, 4, 8]);
      putNumber(changed, at, width, tellingNumber(dice, width, numberAt(bytes, at, width, isLittle), bytes.length), isLittle);
      return changed;
    }
    case 8: {
      const view = new DataView(changed.buffer);
      const aligned = at - (at % 4);
      if (dice.onceIn(2) && aligned + 8 <= changed.length) view.setFloat64(aligned, dice.pick(FLOATS), isLittle);
      else if (aligned + 4 <= changed.length) view.setFloat32(aligned, dice.pick(FLOATS), isLittle);
      return changed;
    }
    case 9:
      return joined(bytes.subarray(0, at), bytes.subarray(at + 1 + dice.below(32)));
    case 10:
      return joined(bytes.subarray(0, at), bytes.subarray(Math.max(0, at - dice.below(64))));
    case 11:
      return bytes.slice(0, Math.max(1, dice.onceIn(2) ? at : bytes.length - dice.below(16)));
    case 12: {
      const [from, length] = [dice.below(bytes.length), 1 + dice.below(64)];
      changed.set(bytes.subarray(from, Math.min(from + length, from + bytes.length - at)), at);
      return changed;
    }
    default:
      changed.fill(dice.pick([0, 255, dice.below(256)]), at, at + dice.below(64));
      return changed;
  }
}
