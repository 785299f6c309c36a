import type { BookValue } from '../../book/book.ts';
import type { NumberKind } from '../../book/measures/kinds.ts';
import { numberText } from '../../book/measures/numberText.ts';
import { type Place, type Problem, problem } from '../../book/problems/problem.ts';
import { acceptedWords, readField } from '../../book/readField.ts';
import type { FieldSchema } from '../../book/schema.ts';
import type { Settings } from '../../book/settings.ts';
import { keptNumber } from '../compare/sameValue.ts';
import type { SavedCell } from './savedWorkbook.ts';

/** What a cell of a workbook says to the book: a value in the unit of the sheet, or why it says none. */
export type CellReading =
  | {
      readonly value: BookValue;
      /** The cell is blank; `value` is what a blank stands for. */
      readonly isBlank: boolean;
      /** The text that was typed, where the cell holds text. */
      readonly typed?: string;
      /** A formula stands in the cell, of which the book takes the value. */
      readonly formula?: string;
    }
  | { readonly problem: Problem };

const words: readonly NumberKind[] = ['key', 'text', 'ref', 'choice', 'yes_no', 'formula'];

/** Whether a column holds words. */
export function isWords(kind: NumberKind): boolean {
  return words.includes(kind);
}

/** A message with the heading of its column instead of the word that the book has for it. */
export function inHeadingWords(
  message: string | undefined,
  { id }: FieldSchema,
  { column }: Place,
): string | undefined {
  return column === undefined ? message : message?.replaceAll(new RegExp(`\\b${id}\\b`, 'g'), () => column);
}

/**
 * Reads a cell of a workbook as its column is read in the book. Numbers are taken as they are, in the unit of the
 * sheet; text in a column of figures is read in the book's own notation, units included.
 *
 * @param before what stood in the cell
 */
export function readSavedCell(
  cell: SavedCell | undefined,
  field: FieldSchema,
  settings: Settings,
  where: Place,
  before: BookValue = null,
): CellReading {
  const refuse = (message: string, accepted: string, mend: string): CellReading => ({
    problem: problem('workbook-cell', where, message, { found: String(cell?.value ?? ''), accepted, mend }),
  });
  const shown = cell?.value ?? null;
  const formula = cell?.formula === undefined ? {} : { formula: cell.formula };
  if (cell?.kind === 'error')
    return refuse(`The cell shows ${shown}.`, 'a value', 'Write the value in, or take the old one back.');
  if (cell?.kind === 'blank' && cell.formula !== undefined)
    return refuse(
      'The cell holds a formula whose result was not saved.',
      'a value, or a formula that was worked out',
      'Open and save the workbook in a spreadsheet program, or write the value in.',
    );
  if (shown === null || (typeof shown === 'string' && shown.trim() === '')) {
    const { value } = readField('', field, settings, where, [], undefined, false);
    if (value === null && field.required && field.blankFrom === undefined)
      return refuse(
        `The cell is blank, and ${where.column ?? field.id} is needed.`,
        acceptedWords(field),
        'Fill in the cell.',
      );
    return { value, isBlank: true, ...formula };
  }
  // A cell that shows per cents takes 12 % for 0.12; of a bare 12 it makes 1200 %, which hardly anybody means.
  if (field.kind === 'percent' && typeof shown === 'number' && shown > 1 && !(Number(before) > 1)) {
    const typed = numberText(keptNumber(shown), settings.decimal);
    return refuse(
      `The cell says ${numberText(keptNumber(shown * 100), settings.decimal)} %.`,
      'a per cent, up to 100 %',
      `For ${typed} %, type it with its sign. A rate over 100 % is written into the book itself.`,
    );
  }
  if (typeof shown === 'number' && !isWords(field.kind)) return { value: shown, isBlank: false, ...formula };
  if (typeof shown === 'boolean' && field.kind !== 'yes_no')
    return refuse(
      `The cell holds the truth value ${shown ? 'TRUE' : 'FALSE'}.`,
      isWords(field.kind) ? 'words' : 'a number',
      'Write the value in.',
    );
  if ((cell?.kind === 'date' || cell?.kind === 'time') && !['text', 'key'].includes(field.kind))
    return refuse(
      `The cell holds a ${cell.kind}, ${shown}; the program took what was typed for one.`,
      isWords(field.kind) ? 'words' : 'a number',
      'Write the figure again as a decimal fraction, in a cell with a number format.',
    );
  const text = typeof shown === 'number' ? numberText(shown, settings.decimal) : String(shown).trim();
  const problems: Problem[] = [];
  const { value } = readField(text, field, settings, where, problems);
  const [fault] = problems.filter(({ severity }) => severity === 'error');
  if (fault !== undefined) {
    return {
      problem: problem('workbook-cell', where, inHeadingWords(fault.message, field, where) ?? '', {
        found: text,
        accepted: fault.accepted,
        mend: fault.mend,
      }),
    };
  }
  return { value, isBlank: false, ...(typeof shown === 'string' ? { typed: text } : {}), ...formula };
}
