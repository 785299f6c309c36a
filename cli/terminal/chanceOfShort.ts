import { type Settings, showNumber } from '../../engine/index.ts';

/** "1 piece in 50", or "3.3 % of pieces" where it is no such share. */
export function chanceOfShort(ratio: number, settings: Settings): string {
  const one = 1 / ratio;
  return Math.abs(one - Math.round(one)) < 1e-9 * one
    ? `1 piece in ${showNumber(Math.round(one), 0, settings)}`
    : `${showNumber(100 * ratio, 1, settings)} % of pieces`;
}
