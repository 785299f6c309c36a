import { Decimal } from 'decimal.js';

/*
 * Exact decimals for what must add up without dust: quantities of stock, and values in smallest coins that are not
 * fixed to whole coins yet. A quotient keeps 40 digits, far below anything that a coin could be lost by.
 */

const ExactDecimal = Decimal.clone({ precision: 40 });

export type Exact = Decimal;

export function exact(value: number | string | Exact): Exact {
  return new ExactDecimal(value);
}

export const nothing: Exact = exact(0);

/** Digits of a figure of the book that are the maker's; what follows is dust of unit conversion. */
const faithfulDigits = 12;

/** A double as the decimal that it stands for: 3.6576 m in feet is 12. */
export function exactOf(value: number): Exact {
  return exact(Number(value.toPrecision(faithfulDigits)));
}

/**
 * The nearest whole coin; a tie goes up. Whoever adds a whole number moves the result by that number, which
 * rounding away from zero does not promise.
 */
export function wholeCoins(value: Exact): number {
  // Digits that a quotient did not keep must not decide a tie.
  return value.toDecimalPlaces(24).plus(0.5).floor().toNumber();
}

/** An amount of money in smallest coins, fixed to whole ones half away from zero, as the sheets round. */
export function coinsOf(amount: Exact, digits: number): number {
  const coins = amount.times(exact(10).pow(digits)).toDecimalPlaces(24);
  return (
    coins
      .abs()
      .plus(0.5)
      .floor()
      .times(coins.isNegative() ? -1 : 1)
      .toNumber() + 0
  );
}

/** Smallest coins as money, as the double that a sheet holds. */
export function moneyOf(coins: number, digits: number): number {
  return exact(coins).div(exact(10).pow(digits)).toNumber() + 0;
}
