import { type CordFunction, cordFunction } from './cordFunction.ts';

/** No bar in common use is worked over more often; six terms also keep the native formula free of arrays. */
const deepestLayer = 6;

function barCord(core: number, first: number, last: number, pitch: number): number {
  const known =
    core >= 0 && pitch > 0 && [first, last].every((k) => Number.isInteger(k) && k >= 1 && k <= deepestLayer);
  if (!known) return Number.NaN;
  const width = Math.max(core - 1, 0);
  let perKnot = 0;
  for (let k = 1; k <= deepestLayer; k += 1) {
    perKnot += first <= k && last >= k ? Math.sqrt((width + k * Math.PI) ** 2 + pitch ** 2) + Math.PI / 2 : 0;
  }
  return perKnot / pitch;
}

const isLiteral = (spelled: string): boolean => /^\d+$/.test(spelled);

/** One layer's part; nothing where written numbers rule it out, and no question where they rule it in. */
function layerTerm(k: number, core: string, first: string, last: string, pitch: string): string {
  const asked = [
    { spelled: first, holds: Number(first) <= k, test: `${first}<=${k}` },
    { spelled: last, holds: Number(last) >= k, test: `${last}>=${k}` },
  ];
  if (asked.some(({ spelled, holds }) => isLiteral(spelled) && !holds)) return '';
  const path = `SQRT((MAX(${core}-1,0)+${k}*PI())^2+${pitch}^2)+PI()/2`;
  const open = asked.filter(({ spelled }) => !isLiteral(spelled)).map(({ test }) => test);
  if (open.length === 0) return path;
  return `IF(${open.length === 1 ? open[0] : `AND(${open.join(',')})`},${path},0)`;
}

/** Tests that a layer is whole and within bounds; none where it is written as such a number. */
function layerDomain(k: string): string[] {
  const isKnown = isLiteral(k) && Number(k) >= 1 && Number(k) <= deepestLayer;
  return isKnown ? [] : [`${k}>=1`, `${k}<=${deepestLayer}`, `${k}=INT(${k})`];
}

/**
 * BAR_CORD: cord that one working cord of a knotted bar takes, per length of bar.
 *
 * Lengths are in cord diameters. The n core strands lie side by side, so their centres span n - 1. In
 * layer k the working cord's centre line runs k diameters outside them: half a stadium outline, straight
 * n - 1 and round k*pi. One half knot carries it along half that outline while the bar grows by the pitch
 * c, and then a quarter turn of radius 1 about its partner adds pi/2:
 *
 *     r(n,k,c) = (sqrt((n - 1 + k*pi)^2 + c^2) + pi/2) / c      summed over k = first..last
 *
 * Domain: n >= 0 (a bare bar is as wide as one strand; a fraction is a core measured rather than counted),
 * c > 0, layers whole and 1..6. With last < first there is nothing to work and the result is 0.
 * Source: derived here; no publication gives it. Held to common rules of thumb in the tests.
 */
export const bar: CordFunction = cordFunction({
  name: 'BAR_CORD',
  args: [
    { name: 'core_strands', unit: 'strands', meaning: 'core strands lying side by side' },
    { name: 'first_layer', unit: 'layer', meaning: 'first layer that the cord works; 1 lies on the core' },
    { name: 'last_layer', unit: 'layer', meaning: 'last layer that the cord works, at most 6' },
    { name: 'pitch_ratio', unit: 'cord diameters', meaning: 'length of one half knot along the bar' },
  ],
  gives: 'length of one working cord per length of bar',
  compute: barCord,
  domain: (core, first, last, pitch) => [
    `${core}>=0`,
    `${pitch}>0`,
    ...layerDomain(first),
    ...layerDomain(last),
  ],
  formula: (core, first, last, pitch) => {
    const terms = Array.from({ length: deepestLayer }, (_, i) => layerTerm(i + 1, core, first, last, pitch));
    const sum = terms.filter((term) => term !== '').join('+');
    return sum === '' ? '0' : `(${sum})/${pitch}`;
  },
});
