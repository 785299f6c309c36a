/** Mean and standard deviation (n - 1) of draws. */
export function meanAndSpread(values: Float64Array): { readonly mean: number; readonly spread: number } {
  // About the first, so that large figures of little spread keep their digits.
  const about = values[0] as number;
  let sum = 0;
  for (const value of values) sum += value - about;
  const shift = sum / values.length;
  let squares = 0;
  for (const value of values) squares += (value - about - shift) ** 2;
  return { mean: about + shift, spread: values.length > 1 ? Math.sqrt(squares / (values.length - 1)) : 0 };
}

/** The value that this share (0 to 1) of sorted values stays under, between two neighbours by their distance. */
export function percentileOf(sorted: Float64Array, share: number): number {
  const at = share * (sorted.length - 1);
  const low = sorted[Math.floor(at)] as number;
  const high = sorted[Math.ceil(at)] as number;
  return low + (at - Math.floor(at)) * (high - low);
}

/** Places of values in their order, from 0; equal ones share the middle of theirs. */
export function ranksOf(values: Float64Array): Float64Array {
  const order = Uint32Array.from(values, (_, at) => at).sort(
    (one, other) => (values[one] as number) - (values[other] as number),
  );
  const ranks = new Float64Array(values.length);
  for (let from = 0; from < order.length; ) {
    const value = values[order[from] as number];
    let to = from + 1;
    while (to < order.length && values[order[to] as number] === value) to += 1;
    for (let at = from; at < to; at += 1) ranks[order[at] as number] = (from + to - 1) / 2;
    from = to;
  }
  return ranks;
}

/** Pearson's correlation; 0 where one of the two does not move. Of ranks it is Spearman's. */
export function correlation(one: Float64Array, other: Float64Array): number {
  const [a, b] = [meanAndSpread(one), meanAndSpread(other)];
  if (a.spread === 0 || b.spread === 0) return 0;
  let sum = 0;
  for (let at = 0; at < one.length; at += 1)
    sum += ((one[at] as number) - a.mean) * ((other[at] as number) - b.mean);
  return sum / (one.length - 1) / (a.spread * b.spread);
}
