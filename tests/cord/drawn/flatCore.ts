/** Places of n core strands lying side by side, one diameter apart unless said. */
export function flatCore(count: number, apart = 1): readonly (readonly [y: number, z: number])[] {
  return Array.from({ length: count }, (_, i) => [(i - (count - 1) / 2) * apart, 0] as const);
}
