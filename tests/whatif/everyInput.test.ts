import { describe, expect, it } from 'vitest';
import { disagreements } from '../../engine/calc/agreement.ts';
import { openBook, priceBook, priceOpened } from '../../engine/priceBook.ts';
import type { CellValue, Plan, PlanColumn, PlanSheet } from '../../engine/sheets/plan.ts';
import { switchBook } from '../../engine/switchBook.ts';
import { applyChanges } from '../../engine/whatif/applyChanges.ts';
import { isFault } from '../../engine/whatif/words/findInputs.ts';
import { parseChange } from '../../engine/whatif/words/parseChange.ts';
import { demoBook, pricedBook, sourceOf } from '../support/books.ts';
import { editedByHand } from '../support/editedByHand.ts';

interface Case {
  readonly sheet: PlanSheet;
  readonly column: PlanColumn;
  readonly row: number;
  readonly value: CellValue;
  readonly text: string;
}

const words = ['text', 'ref', 'choice', 'yes_no'];
/** What changes how a table is read, or what a row is called, is another book and not another figure. */
const left = ['materials.sold_by', 'sizes.measure'];

/** One change for every input column: of its first filled cell, and of its first blank one. */
function casesOf(plan: Plan, mark: string): Case[] {
  return plan.sheets.flatMap((sheet) =>
    sheet.id === 'scenarios'
      ? []
      : sheet.columns.flatMap((column) => {
          const { inputs } = column;
          if (
            inputs === undefined ||
            !['input', 'override'].includes(column.role) ||
            left.includes(`${sheet.id}.${column.id}`) ||
            column.kind === 'formula' ||
            column.kind === 'key'
          )
            return [];
          const alone = (row: number): boolean => {
            const place = sheet.places[row];
            return (
              sheet.places.filter((each) => each.file === place?.file && each.row === place?.row).length ===
                1 || sheet.id === 'prices'
            );
          };
          const rows = inputs.map((_, row) => row).filter(alone);
          const filled = rows.find((row) => inputs[row] !== null);
          const blank = rows.find((row) => inputs[row] === null);
          return [filled, blank].flatMap((row) => {
            if (row === undefined) return [];
            const value = another(plan, column, inputs[row] ?? null);
            if (value === undefined) return [];
            const keys = sheet.key.map((id) =>
              String(sheet.columns.find((each) => each.id === id)?.inputs?.[row] ?? ''),
            );
            const name =
              sheet.layout === 'form'
                ? `${sheet.id}.${column.id}`
                : `${sheet.id}[${pick(sheet, row, keys)}].${column.id}`;
            const figure = column.kind === 'percent' && typeof value === 'number' ? value * 100 : value;
            const text = `${name} = ${typeof figure === 'number' ? String(figure).replace('.', mark) : figure}`;
            return [{ sheet, column, row, value, text }];
          });
        }),
  );
}

/** Keys pick a row where they are not blank and alone; else every word of the row does. */
function pick(sheet: PlanSheet, row: number, keys: readonly string[]): string {
  const cell = (id: string, at: number): string =>
    String(sheet.columns.find((each) => each.id === id)?.inputs?.[at] ?? '');
  const quoted = (word: string): string => (/[,=]/.test(word) ? `"${word}"` : word);
  const all = Array.from({ length: sheet.rowCount }, (_, at) => at);
  const alike = all.filter((at) => sheet.key.every((id, place) => cell(id, at) === keys[place]));
  if (alike.length === 1 && keys.every((key) => key !== '')) return keys.map(quoted).join(', ');
  return sheet.columns
    .filter((each) => typeof each.inputs?.[row] === 'string')
    .map((each) => `${each.id}=${quoted(cell(each.id, row))}`)
    .join(', ');
}

function another(plan: Plan, column: PlanColumn, before: CellValue): CellValue | undefined {
  if (column.of !== undefined) {
    const sheet = plan.sheets.find(({ id }) => id === column.of);
    const names = sheet?.columns.find(({ id }) => id === sheet.key[0])?.inputs ?? [];
    return names.find((each) => each !== before) ?? undefined;
  }
  if (column.kind === 'choice') return column.choices?.find((each) => each !== before);
  if (column.kind === 'yes_no') return before === 'yes' ? 'no' : 'yes';
  if (words.includes(column.kind)) return 'otherwise';
  const { min = 0, above, max, below } = column.bounds;
  const start = typeof before === 'number' ? before : (above ?? min);
  const step = column.kind === 'count' ? 1 : column.kind === 'percent' ? 0.01 : 0.5;
  const up = start + step;
  const high = (max ?? below ?? Number.POSITIVE_INFINITY) / (column.kind === 'percent' ? 100 : 1);
  return up < high ? up : start - step;
}

describe.each(['starter', 'metric'])('a changed input of the book %s', (name) => {
  const book = demoBook(name);
  const { plan } = pricedBook(book);
  const opened = openBook(sourceOf(book));
  const mark = name === 'metric' ? ',' : '.';
  const cases = casesOf(plan, mark);

  it('is every kind of input there is', () => {
    expect(cases.length).toBeGreaterThan(100);
  });

  it.each(cases.map((each) => [each.text, each] as const))(
    '%s: as if the book said so',
    (_, { sheet, column, row, value, text }) => {
      const change = parseChange(text, plan);
      if (isFault(change)) throw new Error(change.message);
      const scenario = priceOpened(opened, (before) => applyChanges(before, [change]).plan);
      const byHand = priceBook(sourceOf(editedByHand(book, sheet, column, row, value)));
      if (byHand.plan === undefined || byHand.values === undefined) {
        // What the tables refuse (two owners of one name, say) is no figure of a plan.
        expect(
          byHand.problems.filter(({ severity }) => severity === 'error').map(({ message }) => message),
        ).toEqual([]);
        return;
      }
      if (scenario.values === undefined) throw new Error('not calculated');
      const differing = disagreements(byHand.plan, byHand.values, scenario.values);
      expect(
        differing.map(
          (each) =>
            `${each.sheet.id}.${each.column.id} ${each.row}: ${String(each.one)} ${String(each.other)}`,
        ),
      ).toEqual([]);
    },
  );

  it('reads the same through the switch of a workbook', () => {
    const structural = /_cord$/;
    const some = cases.filter(
      ({ sheet, column, row }) =>
        !(sheet.id === 'products' && structural.test(column.id) && column.inputs?.[row] === null),
    );
    const separator = mark === ',' ? ';' : ',';
    const line = ({ text }: Case): string => `case${separator}"${text.replaceAll('"', '""')}"`;
    const withScenario = (lines: readonly string[]): ReadonlyMap<string, string> =>
      new Map([...book, ['scenarios.csv', [`scenario${separator}change`, ...lines].join('\n')]]);
    for (const at of some.keys()) {
      const { text } = some[at] as Case;
      const change = parseChange(text, plan);
      if (isFault(change)) throw new Error(change.message);
      const switched = switchBook(sourceOf(withScenario([line(some[at] as Case)])), {
        scenario: 'case',
        on: '',
        askingPrices: 'keep the margins',
      });
      const errors = switched.problems.filter(
        ({ code, severity }) => severity === 'error' && code !== 'check-failed',
      );
      expect(errors.map(({ message }) => `${text}: ${message}`)).toEqual([]);
      const plain = priceOpened(opened, (before) => applyChanges(before, [change]).plan);
      const costs = plain.plan?.sheets.find(({ id }) => id === 'costs');
      for (let row = 0; row < (costs?.rowCount ?? 0); row += 1) {
        for (const id of ['unit_cost', 'weight', 'minutes', 'cord_used']) {
          const one = switched.values?.get('costs', id, row);
          const other = plain.values?.get('costs', id, row);
          if (typeof one === 'number' && typeof other === 'number')
            expect(one, `${text} ${id} ${row}`).toBeCloseTo(other, 9);
          else expect(one, `${text} ${id} ${row}`).toEqual(other);
        }
      }
    }
  }, 600_000);
});
