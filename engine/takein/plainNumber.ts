import type { DecimalMark } from '../book/measures/numberText.ts';

/** A number in digits and a decimal mark, never with an exponent; as many digits as tell it apart. */
export function plainNumber(value: number, mark: DecimalMark): string {
  const [digits = '0', exponent] = String(value).split('e');
  const [whole = '0', part = ''] = digits.replace('-', '').split('.');
  const moved = Number(exponent ?? 0);
  const all = `${'0'.repeat(Math.max(0, 1 - moved - whole.length))}${whole}${part}`.padEnd(
    whole.length + moved,
    '0',
  );
  const point = all.length - (moved < 0 || part.length > 0 ? Math.max(0, part.length - moved) : 0);
  const before = all.slice(0, point) || '0';
  const after = all.slice(point);
  const text = after === '' ? before : `${before}${mark === 'comma' ? ',' : '.'}${after}`;
  return value < 0 ? `-${text}` : text;
}

/** At least so many digits after the decimal mark. */
export function withDecimals(text: string, digits: number, mark: DecimalMark): string {
  if (digits === 0) return text;
  const sign = mark === 'comma' ? ',' : '.';
  const [whole = '', part = ''] = text.split(sign);
  return `${whole}${sign}${part.padEnd(digits, '0')}`;
}

/** Digits in groups of three, as the book's notation has them. */
export function grouped(text: string, mark: DecimalMark): string {
  const [sign, group] = mark === 'comma' ? [',', '.'] : ['.', ','];
  const [whole = '', part] = text.split(sign);
  const inGroups = whole.replace(/\B(?=(\d{3})+$)/g, group);
  return part === undefined ? inGroups : `${inGroups}${sign}${part}`;
}

/** The fraction of a tape measure, such as 7 1/2; undefined where the value is no multiple of a 64th. */
export function tapeFraction(value: number): string | undefined {
  const parts = value * 64;
  if (value <= 0 || !Number.isInteger(parts)) return undefined;
  const whole = Math.floor(value);
  let above = parts - whole * 64;
  let below = 64;
  while (above > 0 && above % 2 === 0) {
    above /= 2;
    below /= 2;
  }
  if (above === 0) return String(whole);
  return whole === 0 ? `${above}/${below}` : `${whole} ${above}/${below}`;
}
