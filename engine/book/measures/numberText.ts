/** How the book writes fractions of a number: `1.5` or `1,5`. */
export type DecimalMark = 'point' | 'comma';

export function otherMark(mark: DecimalMark): DecimalMark {
  return mark === 'point' ? 'comma' : 'point';
}

/** Longer text is no figure: the patterns of measures would take a time that grows with the square of its length. */
export const longestFigure = 200;

const spaces = /[\s\u00a0\u202f]+/g;

/**
 * Reads a number as people write it: sign, grouped thousands, decimals, and the vulgar fractions of a
 * tape measure (`7 1/2`, `1/8`). Grouping must be in threes, so `1,5` in a point book is no number
 * rather than fifteen.
 *
 * @returns the number, or undefined where the text is not one.
 */
export function parseNumber(text: string, mark: DecimalMark): number | undefined {
  if (text.length > longestFigure) return undefined;
  const trimmed = text.trim().replace('−', '-');
  const fraction = /^([+-]?)(?:(\d+)[\s\u00a0\u202f-]+)?(\d+)\s*[/⁄]\s*(\d+)$/.exec(trimmed);
  if (fraction) {
    const [, sign, whole, above, below] = fraction;
    if (Number(below) === 0) return undefined;
    const size = Number(whole ?? 0) + Number(above) / Number(below);
    return sign === '-' ? -size : size;
  }
  const compact = trimmed.replace(spaces, ' ');
  const decimal = mark === 'point' ? '\\.' : ',';
  const group = mark === 'point' ? "[,' ’]" : "[.' ’]";
  const shape = new RegExp(`^[+-]?(?:\\d+|\\d{1,3}(?:${group}\\d{3})+)?(?:${decimal}\\d+)?$`);
  if (!/\d/.test(compact) || !shape.test(compact)) return undefined;
  const plain = compact.replace(new RegExp(group, 'g'), '').replace(',', '.');
  return Number(plain);
}

/** A number as a person of this book would write it, for messages: `1.5` or `1,5`. */
export function numberText(value: number, mark: DecimalMark): string {
  const text = String(value);
  return mark === 'comma' ? text.replace('.', ',') : text;
}

/** Moves the decimal mark: shiftDecimal(7.1, -2) is the double nearest 0.071, which 7.1 / 100 need not be. */
export function shiftDecimal(value: number, places: number): number {
  const [digits, exponent] = String(value).split('e');
  return Number(`${digits}e${Number(exponent ?? 0) + places}`);
}
