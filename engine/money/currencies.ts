/**
 * How many digits follow the point in a currency's smallest unit.
 * Source: ISO 4217 list one (active codes, funds codes with a minor unit included), from memory; the test
 * compares it with the currency data that ships with Node (ICU), and names the codes where the two differ.
 */

const TWO_DIGITS =
  'AED AFN ALL AMD ANG AOA ARS AUD AWG AZN BAM BBD BDT BGN BMD BND BOB BOV BRL BSD BTN BWP BYN BZD CAD CDF ' +
  'CHE CHF CHW CNY COP COU CRC CUP CVE CZK DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL GHS GIP GMD GTQ GYD ' +
  'HKD HNL HTG HUF IDR ILS INR IRR JMD KES KGS KHR KPW KYD KZT LAK LBP LKR LRD LSL MAD MDL MGA MKD MMK MNT ' +
  'MOP MRU MUR MVR MWK MXN MXV MYR MZN NAD NGN NIO NOK NPR NZD PAB PEN PGK PHP PKR PLN QAR RON RSD RUB SAR ' +
  'SBD SCR SDG SEK SGD SHP SLE SOS SRD SSP STN SVC SYP SZL THB TJS TMT TOP TRY TTD TWD TZS UAH USD USN UYU ' +
  'UZS VED VES WST XCD XCG YER ZAR ZMW ZWG';
const NO_DIGITS = 'BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF';
const THREE_DIGITS = 'BHD IQD JOD KWD LYD OMR TND';
const FOUR_DIGITS = 'CLF UYW';

const MINOR_UNIT_DIGITS: ReadonlyMap<string, number> = new Map(
  [NO_DIGITS, '', TWO_DIGITS, THREE_DIGITS, FOUR_DIGITS].flatMap((codes, digits) =>
    codes
      .split(' ')
      .filter((code) => code !== '')
      .map((code): [string, number] => [code, digits]),
  ),
);

/** The known codes, in alphabetical order. */
export const currencyCodes: readonly string[] = Object.freeze([...MINOR_UNIT_DIGITS.keys()].sort());

/**
 * Digits of the minor unit of a currency: EUR 2, JPY 0, KWD 3; undefined for a code that is not one of
 * ISO 4217's. `code` is three capital letters, as the standard writes them.
 */
export function minorUnitDigits(code: string): number | undefined {
  return MINOR_UNIT_DIGITS.get(code);
}
