import { type CellReading, fault } from './cellReading.ts';
import { dayText, readDay } from './measures/day.ts';
import type { NumberKind } from './measures/kinds.ts';
import { type DecimalMark, numberText, otherMark, parseNumber, shiftDecimal } from './measures/numberText.ts';
import {
  readForce,
  readLength,
  readQuantity,
  readWeight,
  readWeightPerUnit,
} from './measures/readMeasure.ts';
import { nearest } from './problems/nearest.ts';
import type { FieldSchema } from './schema.ts';
import type { Settings } from './settings.ts';

/**
 * Reads the text of one cell by the kind of its column, into the unit that the sheets hold.
 *
 * @param text trimmed and not empty
 * @param headingUnit unit of bare numbers where the heading states one
 */
export function readCell(
  text: string,
  field: FieldSchema,
  settings: Settings,
  headingUnit?: string,
): CellReading {
  switch (field.kind) {
    case 'key':
      return readKey(text);
    case 'ref': // whether there is such a name is for the whole book to say
      return { value: plainName(text) };
    case 'text':
    case 'formula':
      return { value: text };
    case 'choice':
      return readChoice(text, field.choices ?? []);
    case 'yes_no':
      return readChoice(/^(y|true)$/i.test(text) ? 'yes' : /^(n|false)$/i.test(text) ? 'no' : text, [
        'yes',
        'no',
      ]);
    case 'length':
      return bounded(
        readLength(text, settings, settings.lengthUnit, headingUnit),
        text,
        field,
        settings.decimal,
      );
    case 'cord':
      return bounded(
        readLength(text, settings, settings.cordUnit, headingUnit),
        text,
        field,
        settings.decimal,
      );
    case 'fine':
      return bounded(readLength(text, settings, 'mm', headingUnit), text, field, settings.decimal);
    case 'quantity':
      return bounded(readQuantity(text, settings, headingUnit), text, field, settings.decimal);
    case 'weight':
      return bounded(readWeight(text, settings, headingUnit), text, field, settings.decimal);
    case 'weight_per_unit':
      return bounded(readWeightPerUnit(text, settings, headingUnit), text, field, settings.decimal);
    case 'force':
      return bounded(readForce(text, settings, headingUnit), text, field, settings.decimal);
    case 'percent':
      return readPercent(text, field, settings.decimal);
    case 'date':
      return readDate(text);
    case 'count':
      return bounded(readCount(text, settings.decimal), text, field, settings.decimal);
    default:
      return bounded(readPlain(text, field.kind, settings), text, field, settings.decimal);
  }
}

/** Marks that cannot be seen must not make two names of one: composed letters, plain blanks, nothing unseen. */
function plainName(text: string): string {
  return text
    .normalize('NFC')
    .replace(/\p{Cf}/gu, '')
    .replace(/\p{Zs}+/gu, ' ')
    .trim();
}

/** Names are shown in drop-downs and headings. */
export const longestKey = 60;

/** Keys are looked up by MATCH, which reads `*`, `?` and `~` as wild cards. */
function readKey(given: string): CellReading {
  const text = plainName(given);
  const accepted = `up to ${longestKey} letters, digits, spaces and marks other than * ? ~ |, on one line`;
  if (text.length > longestKey) {
    return fault(
      'key-bad',
      `A name of ${text.length} characters is too long.`,
      accepted,
      'Choose a shorter name.',
    );
  }
  const bad = /[*?~|]|\p{Cc}/u.exec(text)?.[0];
  if (bad === undefined) return { value: text };
  if (bad < ' ' || bad === '\u007f')
    return fault('key-bad', 'The name runs over more than one line.', accepted, 'Write it on one line.');
  return fault(
    'key-bad',
    bad === '|'
      ? '“|” cannot stand in a name.'
      : `“${bad}” cannot stand in a name: look-ups in a workbook read it as a wild card.`,
    accepted,
    `Write the name without “${bad}”, here and wherever it is used.`,
  );
}

function readChoice(text: string, choices: readonly string[]): CellReading {
  const plain = (words: string): string => words.toLowerCase().replace(/[\s_-]+/g, ' ');
  const choice = choices.find((each) => plain(each) === plain(text));
  if (choice !== undefined) return { value: choice };
  const near = nearest(text, choices);
  return fault(
    'not-a-choice',
    `“${text}” is none of the words that can stand here.`,
    choices.join(', '),
    near === undefined ? `Write ${choices.join(' or ')}.` : `Did you mean “${near}”?`,
  );
}

function readPercent(text: string, field: FieldSchema, mark: DecimalMark): CellReading {
  const signed = /^(.*\d)\s*%$/.exec(text);
  const value = parseNumber(signed?.[1] ?? text, mark);
  if (value === undefined) {
    return fault(
      'not-a-number',
      `“${text}” is not a percentage.`,
      `a number such as 35 or ${numberText(7.5, mark)} %`,
      inOtherMark(signed?.[1] ?? text, mark) ?? 'Write the per cent in digits.',
    );
  }
  const inside = bounded({ value }, text, field, mark);
  if ('fault' in inside) return inside;
  const ratio = shiftDecimal(value, -2);
  if (signed !== null || value === 0 || Math.abs(value) >= 1) return { value: ratio };
  const shown = numberText(value, mark);
  return {
    value: ratio,
    watch: {
      code: 'percent-suspect',
      message: `${shown} is read as ${shown} %, less than one in a hundred.`,
      accepted: 'per cent: 35 means 35 %',
      mend: `Write ${numberText(shiftDecimal(value, 2), mark)} if you meant a share of ${shown}, or “${shown} %” to be rid of this line.`,
    },
  };
}

function readCount(text: string, mark: DecimalMark): CellReading {
  const value = parseNumber(text, mark);
  if (value !== undefined && Number.isInteger(value)) return { value };
  return fault(
    'not-a-number',
    `“${text}” is not a whole number.`,
    'a whole number such as 2',
    'Write it in digits, without a fraction.',
  );
}

/** Where two days can be meant, none is taken: a month read for a day moves money between months unseen. */
function readDate(text: string): CellReading {
  const reading = readDay(text);
  if ('day' in reading) return { value: reading.day };
  const accepted = 'year, month and day, such as 2026-10-31';
  if ('either' in reading) {
    const [dayFirst, monthFirst] = reading.either;
    return fault(
      'date-unclear',
      `“${text}” can be ${dayFirst} or ${monthFirst}.`,
      accepted,
      'Write the year first, or give the column the format YYYY-MM-DD before you save the table.',
    );
  }
  const counted = /^[1-9]\d{4}$/.test(text) ? dayText(Number(text)) : undefined;
  const mend =
    counted !== undefined
      ? `As spreadsheets count days that would be ${counted}; give the column a date format and save it again.`
      : reading.wrong === 'year'
        ? 'Write the year with four digits.'
        : reading.wrong === 'calendar'
          ? 'Check day and month.'
          : 'Write the year first.';
  return fault('date-unclear', `“${text}” is not a day of the calendar.`, accepted, mend);
}

function readPlain(text: string, kind: NumberKind, settings: Settings): CellReading {
  const mark = settings.decimal;
  const suffix =
    kind === 'minutes'
      ? /\s*(?:min|minutes?)\.?$/i
      : kind === 'hours'
        ? /\s*(?:h|hours?)\.?$/i
        : kind === 'angle'
          ? /\s*(?:°|deg|degrees)$/i
          : undefined;
  let plain = suffix === undefined ? text : text.replace(suffix, '');
  if (kind === 'money' || kind === 'money_per_unit') {
    plain = plain
      .replace(/\p{Sc}/u, '')
      .replace(new RegExp(`^${settings.currency}\\b|\\b${settings.currency}$`, 'i'), '')
      .trim();
  }
  const value = parseNumber(plain, mark);
  if (value !== undefined) return { value };
  const what =
    kind === 'money' || kind === 'money_per_unit'
      ? 'an amount of money'
      : kind === 'minutes'
        ? 'a number of minutes'
        : 'a number';
  return fault(
    'not-a-number',
    `“${text}” is not ${what}.`,
    `a number such as ${numberText(12.5, mark)}`,
    inOtherMark(plain, mark) ?? 'Write it in digits.',
  );
}

/** What to do about a number that the other decimal mark would make sense of. */
function inOtherMark(text: string, mark: DecimalMark): string | undefined {
  const other = otherMark(mark);
  if (parseNumber(text, other) === undefined) return undefined;
  const ungrouped = text
    .trim()
    .replace(other === 'point' ? /[,' ’\u00a0\u202f]/g : /[.' ’\u00a0\u202f]/g, '');
  const changed = mark === 'point' ? ungrouped.replace(',', '.') : ungrouped.replace('.', ',');
  return `Write ${changed}: this book writes decimals with a ${mark} (decimal: ${mark} in book.yaml).`;
}

/** Holds a value to the bounds of its column; bounds are in the unit of the column (per cent for percent). */
function bounded(reading: CellReading, text: string, field: FieldSchema, mark: DecimalMark): CellReading {
  if ('fault' in reading || typeof reading.value !== 'number') return reading;
  const { value } = reading;
  const limits: string[] = [];
  if (field.min !== undefined) limits.push(`${numberText(field.min, mark)} or more`);
  if (field.above !== undefined) limits.push(`more than ${numberText(field.above, mark)}`);
  if (field.max !== undefined) limits.push(`${numberText(field.max, mark)} or less`);
  if (field.below !== undefined) limits.push(`less than ${numberText(field.below, mark)}`);
  const inside =
    (field.min === undefined || value >= field.min) &&
    (field.above === undefined || value > field.above) &&
    (field.max === undefined || value <= field.max) &&
    (field.below === undefined || value < field.below);
  if (inside) return reading;
  return fault('out-of-range', `${field.id} cannot be ${text}.`, limits.join(' and '), hintFor(field));
}

function hintFor(field: FieldSchema): string {
  if (['length', 'cord', 'fine', 'weight', 'weight_per_unit', 'force'].includes(field.kind))
    return 'Check the figure and its unit.';
  return field.required || field.blank !== undefined
    ? 'Check the figure.'
    : 'Check the figure, or leave it out.';
}
