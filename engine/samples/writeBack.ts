import { sameKey } from '../book/book.ts';
import { parseCsv } from '../book/files/csvFile.ts';
import { editCsv } from '../book/files/editCsv.ts';
import { numberText } from '../book/measures/numberText.ts';
import type { Settings } from '../book/settings.ts';
import { roundTo } from '../money/rounding.ts';
import type { SampleFit } from './fitFigure.ts';
import type { WeaveFit } from './fitSamples.ts';

/** One cell of weaves.csv that a fit changes; texts in the book's own notation. */
export interface WrittenCell {
  readonly weave: string;
  readonly column: string;
  readonly before: string;
  readonly after: string;
}

/** A figure is written no finer than it can be used: a thousandth of a pitch, a hundredth of a degree. */
function digitsOf(column: string): number {
  return column === 'angle' ? 2 : 3;
}

/** Cells of a fit: its figure, and how far a new piece is off by it. */
function cellsOf({ parameter, value, spare }: SampleFit, settings: Settings): [string, string][] {
  const layered = parameter === 'layered_pitch_ratio' ? 'layered_' : '';
  const { ratio, degrees } = spare.error;
  const percent = roundTo(100 * ratio, 2);
  const text = numberText(percent, settings.decimal);
  return [
    [parameter, numberText(roundTo(value, digitsOf(parameter)), settings.decimal)],
    // Less than one per cent would be asked about: the sign says that it is meant.
    [`${layered}spread_percent`, percent < 1 && percent > 0 ? `${text} %` : text],
    // Blank says that the spread is not from samples.
    [`${layered}spread_degrees`, Number.isFinite(degrees) ? String(degrees) : ''],
  ];
}

/**
 * Puts fitted figures into the text of a book's weaves.csv. A weave that has no row there gets the shipped
 * one with the fitted figures in it, as a row of the book stands for the whole of the shipped row.
 *
 * @param text of the book's weaves.csv; undefined where there is none
 * @param shipped text of the weaves that come with Sennit
 */
export function writeBack(
  text: string | undefined,
  shipped: string,
  weaves: readonly WeaveFit[],
  settings: Settings,
): { text: string; cells: WrittenCell[] } {
  const cells: WrittenCell[] = [];
  let result = text ?? '';
  for (const { weave, fits, core } of weaves) {
    const fitted = new Map(fits.flatMap((fit) => cellsOf(fit, settings)));
    if (core !== undefined) {
      fitted.set('core_take_up', numberText(roundTo(core.value, digitsOf('core_take_up')), settings.decimal));
    }
    const whole = hasRow(result, weave.weave)
      ? new Map<string, string>()
      : withoutNewBlanks(shippedRow(shipped, weave.weave, settings), result);
    const edited = editCsv(
      result,
      'weave',
      weave.weave,
      new Map([...whole, ...withoutNewBlanks(fitted, result)]),
      settings.decimal === 'comma' ? ';' : ',',
    );
    result = edited.text;
    for (const [column, after] of fitted) {
      const before = edited.before.get(column) ?? whole.get(column) ?? '';
      // What stays as it was is nothing to tell.
      if (before !== after) cells.push({ weave: weave.weave, column, before, after });
    }
  }
  return { text: result, cells };
}

function hasRow(text: string, weave: string): boolean {
  const { headings, rows } = parseCsv('weaves.csv', text);
  const at = headings.findIndex(({ id }) => id === 'weave');
  return rows.some(({ cells }) => sameKey(cells[at] ?? '') === sameKey(weave));
}

/** A blank cell is no reason to give the book's table a column more. */
function withoutNewBlanks(row: ReadonlyMap<string, string>, text: string): Map<string, string> {
  const { headings } = parseCsv('weaves.csv', text);
  if (headings.length === 0) return new Map(row);
  const known = new Set(headings.map(({ id }) => id));
  return new Map([...row].filter(([column, cell]) => cell !== '' || known.has(column)));
}

/** The shipped row of a weave by column, its decimals written as the book writes them. */
function shippedRow(shipped: string, weave: string, settings: Settings): Map<string, string> {
  const { headings, rows } = parseCsv('weaves.csv', shipped);
  const at = headings.findIndex(({ id }) => id === 'weave');
  const row = rows.find(({ cells }) => sameKey(cells[at] ?? '') === sameKey(weave));
  return new Map(
    headings.map(({ id }, index) => {
      const text = row?.cells[index] ?? '';
      const decimal = settings.decimal === 'comma' && /^\d+\.\d+$/.test(text);
      return [id, decimal ? text.replace('.', ',') : text];
    }),
  );
}
