import type { BookValue } from './book.ts';
import type { WrittenUnit } from './cellReading.ts';
import { longestFigure } from './measures/numberText.ts';
import { type Place, type Problem, problem } from './problems/problem.ts';
import { readCell } from './readCell.ts';
import type { FieldSchema } from './schema.ts';
import type { Settings } from './settings.ts';

/** Reads the text of one field; a blank takes the field's default, or is a problem where it has none. */
export function readField(
  text: string,
  field: FieldSchema,
  settings: Settings,
  place: Place,
  problems: Problem[],
  headingUnit?: string,
  blankIsProblem = true,
): { value: BookValue; given?: WrittenUnit } {
  const metric = settings.lengthUnit !== 'in';
  let filled = text;
  if (text === '') {
    const standIn = metric ? (field.blankMetric ?? field.blank) : field.blank;
    if (standIn === undefined) {
      if (field.required && blankIsProblem) {
        problems.push(
          problem('cell-missing', place, `The cell is blank, and ${field.id} is needed.`, {
            accepted: acceptedWords(field),
            mend: 'Fill in the cell.',
          }),
        );
      }
      return { value: null };
    }
    // Defaults come from the sheets, which are written with a decimal point.
    filled = standIn;
  }
  const most = mostCharacters(field);
  if (text.length > most) {
    const found = `${text.slice(0, 60)}…`;
    const message = `The cell holds ${text.length} characters, more than ${field.id} takes.`;
    const accepted = `up to ${most} characters`;
    problems.push(problem('cell-too-long', place, message, { found, accepted, mend: 'Shorten it.' }));
    return { value: null };
  }
  const reading = readCell(
    filled,
    field,
    text === '' ? { ...settings, decimal: 'point' } : settings,
    text === '' ? undefined : headingUnit,
  );
  if ('fault' in reading) {
    const { code, message, accepted, mend } = reading.fault;
    problems.push(problem(code, place, message, { found: text, accepted, mend }));
    // A name that cannot be used is still the one that other tables call it by.
    return { value: code === 'key-bad' ? text : null };
  }
  if (reading.watch !== undefined && text !== '') {
    const { code, message, accepted, mend } = reading.watch;
    problems.push(problem(code, place, message, { severity: 'watch', found: text, accepted, mend }));
  }
  return reading.unit === undefined
    ? { value: reading.value }
    : { value: reading.value, given: reading.unit };
}

/** A cell of a workbook ends at 32,767 characters, and a formula may join several of these. */
const longestText = 4000;

/** Text is refused rather than cut: nobody looks for what is missing at the end of a long cell. */
function mostCharacters(field: FieldSchema): number {
  // Of a key that is too long, readCell tells more.
  if (field.kind === 'key') return Number.POSITIVE_INFINITY;
  return field.kind === 'text' || field.kind === 'formula' ? longestText : longestFigure;
}

const kindWords: Partial<Record<FieldSchema['kind'], string>> = Object.freeze({
  key: 'a name of its own',
  text: 'text',
  money: 'an amount of money',
  percent: 'a percentage',
  count: 'a whole number',
  length: 'a length',
  cord: 'a length',
  fine: 'a length',
  quantity: 'a number of pieces, or a length',
  weight: 'a weight',
  weight_per_unit: 'a weight',
  force: 'a breaking strength',
  minutes: 'a number of minutes',
  hours: 'a number of hours',
  date: 'a day such as 2026-10-31',
});

/** What a column takes, in a few words. */
export function acceptedWords(field: FieldSchema): string {
  if (field.choices !== undefined) return field.choices.join(', ');
  if (field.of !== undefined) return `a name from ${field.of}`;
  return kindWords[field.kind] ?? 'a number';
}
