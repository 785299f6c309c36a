import { convertLength } from '../../book/measures/measure.ts';
import type { Settings } from '../../book/settings.ts';
import { showNumber } from '../../sheets/showValue.ts';
import type { Card } from './card.ts';
import { fineText, lengthText } from './lengthText.ts';
import type { SetUp } from './setUp.ts';
import { dimension, label, letterMm, mm } from './svg.ts';

/** A bar at the right edge, as long as it says whatever size the page is shown at. */
export function scaleBar(widthMm: number, scale: number, settings: Settings, topMm: number): string {
  const isInches = settings.lengthUnit === 'in';
  const choices = isInches ? [1, 2, 3, 6, 12, 24, 36, 60, 120, 240] : [1, 2, 5, 10, 20, 50, 100, 200, 500];
  const lengths = choices.map((each) => convertLength(each, isInches ? 'in' : 'cm', 'mm'));
  const lengthMm = lengths.filter((each) => each <= 25.4 * scale).at(-1) ?? lengths[0] ?? 10;
  const fromX = widthMm - 1 - lengthMm / scale;
  return [
    dimension(fromX, widthMm - 1, topMm + 2),
    label(fromX - 1.5, topMm + letterMm, lengthText(lengthMm, settings), 20, 'end'),
  ].join('\n');
}

/** What the sheets say of width and thickness, beside the full-size drawing. */
export function widthMark(card: Card, piece: SetUp, settings: Settings, x: number, middleMm: number): string {
  const half = piece.widthMm / 2;
  const words = widthWords(card, settings);
  const top = middleMm + 1 - ((words.length - 1) * 4.2) / 2;
  return [
    `<path class="dim" d="M${mm(x)} ${mm(middleMm - half)}V${mm(middleMm + half)}M${mm(x - 1.2)} ${mm(middleMm - half)}h2.4M${mm(x - 1.2)} ${mm(middleMm + half)}h2.4"/>`,
    ...words.map((text, at) => label(x + 2, top + at * 4.2, text, 30)),
  ].join('\n');
}

/** Width and thickness in words, one or two of them. */
export function widthWords(card: Card, settings: Settings): readonly string[] {
  if (card.widthMm === null) return ['width not', 'to scale'];
  if (card.thicknessMm === card.widthMm) return [`${fineText(card.widthMm, settings)} across`];
  const wide = `${fineText(card.widthMm, settings)} wide`;
  return card.thicknessMm === null ? [wide] : [wide, `${fineText(card.thicknessMm, settings)} thick`];
}

/** More half knots than this nobody counts, and no page holds their ticks. */
const mostTicks = 5000;

/** A stroke for each half knot or turn where they can be told apart, a longer one with a number at every tenth or so. */
export function tickRow(
  card: Card,
  piece: SetUp,
  settings: Settings,
  x: (alongMm: number) => number,
  topMm: number,
  scale: number,
): { readonly svg: string; readonly heightMm: number } {
  const knots = Math.floor((card.knots ?? 0) + 1e-6);
  const pitch = piece.pitchMm;
  if (knots < 1 || pitch === null || knots > mostTicks) return { svg: '', heightMm: 0 };
  const isFine = pitch / scale >= 0.7;
  const numbered = [10, 20, 50, 100, 200, 500, 1000].find((each) => (each * pitch) / scale >= 8) ?? 1000;
  const foot = topMm + 5.4;
  const strokes: string[] = [];
  const numbers: string[] = [];
  for (let knot = 0; knot <= knots; knot += 1) {
    const isNumbered = knot % numbered === 0;
    if (!isFine && !isNumbered) continue;
    const at = x(piece.woven.fromMm + knot * pitch);
    strokes.push(`M${mm(at)} ${mm(foot)}v-${isNumbered ? 2 : 1.1}`);
    if (isNumbered && knot > 0)
      numbers.push(label(at, foot - 2.6, showNumber(knot, 0, settings), 10, 'middle'));
  }
  return { svg: `<path class="tick" d="${strokes.join('')}"/>${numbers.join('')}`, heightMm: 5.8 };
}
