import { minorUnitDigits } from '../money/currencies.ts';
import type { YamlFile } from './files/yamlFile.ts';
import { lengthUnit as unitOf } from './measures/measure.ts';
import type { DecimalMark } from './measures/numberText.ts';
import { weightUnit } from './measures/weight.ts';
import { type Problem, problem } from './problems/problem.ts';

/** What `book.yaml` says about how the book is written, as opposed to what it costs. */
export interface Settings {
  readonly workshop: string;
  /** ISO 4217 code. */
  readonly currency: string;
  readonly currencyDigits: number;
  readonly decimal: DecimalMark;
  /** Short unit: pieces, cuts. */
  readonly lengthUnit: 'in' | 'cm' | 'mm';
  /** Long unit: cord to buy. */
  readonly cordUnit: 'ft' | 'yd' | 'm';
  /** Weight of pieces, cord and parcels. */
  readonly weightUnit: 'g' | 'oz';
}

const words = {
  decimal: ['point', 'comma'],
  length_unit: ['in', 'cm', 'mm'],
  cord_unit: ['ft', 'yd', 'm'],
  weight_unit: ['g', 'oz'],
} as const;

/** Keys of `book.yaml` that are settings; the rest are figures of the sheet Rates. */
export const settingNames: readonly string[] = ['workshop', 'currency', ...Object.keys(words)];

/**
 * Reads the settings of `book.yaml`.
 *
 * @returns settings (with usable stand-ins where a problem was found, so that reading can go on and
 * report the rest) and problems.
 */
export function readSettings(yaml: YamlFile): { settings: Settings; problems: Problem[] } {
  const problems: Problem[] = [];

  function word<const Name extends keyof typeof words>(name: Name, otherwise: (typeof words)[Name][number]) {
    const accepted: readonly string[] = words[name];
    if (yaml.isNested(name)) {
      problems.push(nested(yaml, name, accepted.join(' or ')));
      return otherwise;
    }
    const found = yaml.text(name);
    if (found === undefined) return otherwise;
    const meant = [found.toLowerCase(), unitOf(found), weightUnit(found)].find(
      (each) => each !== undefined && accepted.includes(each),
    );
    if (meant !== undefined) return meant as (typeof words)[Name][number];
    problems.push(
      problem('not-a-choice', { ...yaml.place(name), column: name }, `${name} cannot be “${found}”.`, {
        found,
        accepted: accepted.join(' or '),
        mend: `Write one of these, such as ${name}: ${accepted[0]}.`,
      }),
    );
    return otherwise;
  }

  for (const name of ['workshop', 'currency'])
    if (yaml.isNested(name)) problems.push(nested(yaml, name, 'text'));
  const written = yaml.text('currency') ?? '';
  const currency = written.toUpperCase();
  const digits = minorUnitDigits(currency);
  if (digits === undefined && !yaml.isNested('currency')) {
    const message =
      currency === '' ? 'The book does not say its currency.' : `“${written}” is not a currency code.`;
    problems.push(
      problem(
        currency === '' ? 'setting-missing' : 'not-a-choice',
        { ...yaml.place('currency'), column: 'currency' },
        message,
        {
          found: written,
          accepted: 'a three-letter code of ISO 4217, such as USD, EUR or GBP',
          mend: 'Write a line such as currency: USD.',
        },
      ),
    );
  }
  const lengthUnit = word('length_unit', 'in');
  const cordUnit = word('cord_unit', lengthUnit === 'in' ? 'ft' : 'm');
  return {
    settings: {
      workshop: yaml.text('workshop') ?? '',
      currency: digits === undefined ? 'USD' : currency,
      currencyDigits: digits ?? 2,
      decimal: word('decimal', 'point'),
      lengthUnit,
      cordUnit,
      weightUnit: word('weight_unit', lengthUnit === 'in' ? 'oz' : 'g'),
    },
    problems,
  };
}

function nested(yaml: YamlFile, name: string, accepted: string): Problem {
  return problem(
    'not-a-choice',
    { ...yaml.place(name), column: name },
    `${name} holds a list or a group of lines, not one word.`,
    {
      accepted: `one line, ${name}: ${accepted}`,
      mend: 'Write it on the same line.',
    },
  );
}
