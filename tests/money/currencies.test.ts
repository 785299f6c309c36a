import { expect, test } from 'vitest';
import { currencyCodes, minorUnitDigits } from '../../engine/money/currencies.ts';

// ISO 4217 list one, from memory: the usual examples of each number of digits.
test('minor units of 2, 0, 3 and 4 digits; unknown codes have none', () => {
  expect(['EUR', 'USD', 'GBP', 'CHF'].map(minorUnitDigits)).toEqual([2, 2, 2, 2]);
  expect(['JPY', 'KRW', 'ISK'].map(minorUnitDigits)).toEqual([0, 0, 0]);
  expect(['KWD', 'BHD', 'TND'].map(minorUnitDigits)).toEqual([3, 3, 3]);
  expect(minorUnitDigits('CLF')).toBe(4);
  expect(['ABC', 'eur', '', 'EURO', 'constructor'].map(minorUnitDigits)).toEqual(
    Array.from({ length: 5 }, () => undefined),
  );
});

test('the currencies of the world are there, in the order of the alphabet', () => {
  expect(currencyCodes.length).toBeGreaterThan(150);
  expect([...currencyCodes].sort()).toEqual(currencyCodes);
  // What the largest economies of each part of the world pay in, from memory.
  const some =
    'AED ARS AUD BRL CAD CNY CZK DKK EGP HKD IDR ILS INR KES KZT MAD MXN MYR NGN NOK NZD PEN PHP PKR PLN QAR RON SAR SEK SGD THB TRY TWD UAH UYU ZAR ZMW';
  for (const code of some.split(' ')) expect(minorUnitDigits(code), code).toBe(2);
});

test('agrees with the currency data of this Node (ICU), apart from units that are out of daily use', () => {
  // ICU gives the digits in everyday use, ISO 4217 those of the unit: for these it gives 0 for 2 (IQD: 3).
  const outOfDailyUse = 'AFN ALL COP HUF IDR IQD IRR KPW LAK LBP MGA MMK PKR SOS SYP YER'.split(' ');
  const known = new Set(Intl.supportedValuesOf('currency'));
  const differing = currencyCodes.filter((currency) => {
    const format = new Intl.NumberFormat('en', { style: 'currency', currency }).resolvedOptions();
    return known.has(currency) && format.maximumFractionDigits !== minorUnitDigits(currency);
  });
  expect(differing.filter((code) => !outOfDailyUse.includes(code))).toEqual([]);
});
