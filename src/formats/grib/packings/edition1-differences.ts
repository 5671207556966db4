/**
 * Turns differences back into values, in place: `values` are, from the `firsts.length`-th on, differences of that order (1 to 3) with
 * `bias` taken from each, and `firsts` are the values before them.
 */
export function undoDifferences(values: Float64Array, firsts: Float64Array, bias: number): void {
  const order = firsts.length;
  values.set(firsts);
  // What the last value was, by how much it rose, by how much that rose.
  const [first = 0, second = 0, third = 0] = firsts;
  let value = firsts[order - 1]!;
  let rise = order === 3 ? third - second : second - first;
  let bend = third - 2 * second + first;
  for (let i = order; i < values.length; i++) {
    const given = values[i]! + bias;
    if (order === 3) bend += given;
    if (order === 1) rise = given;
    else rise += order === 3 ? bend : given;
    value += rise;
    values[i] = value;
  }
}
