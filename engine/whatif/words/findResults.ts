import { sameKey } from '../../book/book.ts';
import type { NumberKind } from '../../book/measures/kinds.ts';
import { mendName } from '../../book/problems/nearest.ts';
import type { CellPlace } from '../../calc/program/compileProgram.ts';
import type { Plan, PlanColumn, PlanSheet } from '../../sheets/plan.ts';
import type { ChangeFault } from './change.ts';
import { headingOf, isFault } from './findInputs.ts';
import { pickRows, sheetOf } from './inputRows.ts';
import { namedSheet } from './namedSheet.ts';
import { monthWords, type ResultWord, resultWords } from './resultWords.ts';

/** A calculated figure of a book. */
export interface FoundResult extends CellPlace {
  /** As a maker says it, in words that name it again: `margin of fob short at stall`. */
  readonly name: string;
  readonly kind: NumberKind;
  /** What the figure is counted in, as its heading says: `USD`; empty where it says nothing. */
  readonly unit: string;
  /** The row's product and channel, where it has them. */
  readonly product?: string;
  readonly channel?: string;
}

const accepted =
  'a result such as margin of <product> at <channel>, contribution, profit, asking price, floor or target of it, unit cost of <product>, month’s profit, or prices[<product>, <channel>].margin';

/**
 * Finds the results that a maker means; one text may name several: `margin of fob short` is one a channel,
 * `margin at stall` one a product, `margin` all of them.
 *
 * @param of for `its floor`: the result beside which it is named
 */
export function findResults(
  text: string,
  plan: Plan,
  of?: FoundResult,
): readonly FoundResult[] | ChangeFault {
  const plain = text.trim().replace(/\s+/g, ' ').replaceAll('’', "'");
  const named = /^([a-z][a-z0-9_]*)(?:\[(.*)\])?\.([a-z][a-z0-9_]*)$/i.exec(plain);
  if (named !== null) return bySheetLanguage(named, plan);
  const month =
    /^(?:the )?month(?:'s|ly)? (.+)$/i.exec(plain)?.[1] ??
    /^(.+) (?:of|in) (?:the )?month$/i.exec(plain)?.[1];
  if (month !== undefined) return ofMonth(month, plan);
  const its = /^its (.+)$/i.exec(plain)?.[1];
  if (its !== undefined && of?.product !== undefined) {
    const where = of.channel === undefined ? '' : ` at ${of.channel}`;
    return findResults(`${its} of ${of.product}${where}`, plan);
  }
  return ofProducts(plain, plan);
}

/** One result; a fault names the choices where the text means several. */
export function findResult(text: string, plan: Plan, of?: FoundResult): FoundResult | ChangeFault {
  const found = findResults(text, plan, of);
  if (isFault(found)) return found;
  const [first, second] = found;
  if (first !== undefined && second === undefined) return first;
  const names = found.map(({ name }) => name);
  return {
    message: `“${text}” means ${found.length} results.`,
    accepted: 'one of them',
    mend: `Say which: ${names.slice(0, 4).join('; ')}${names.length > 4 ? '; …' : ''}.`,
  };
}

/** The result that stands in a cell, for whoever knows its place. */
export function resultIn({ sheet: id, column: columnId, row }: CellPlace, plan: Plan): FoundResult {
  const sheet = sheetOf(plan, id);
  const column = sheet?.columns.find((each) => each.id === columnId);
  if (sheet === undefined || column === undefined) throw new Error(`There is no ${id}.${columnId}`);
  return resultAt(sheet, column, row);
}

function isResult({ role, kind }: PlanColumn): boolean {
  return role === 'computed' && kind !== 'text' && kind !== 'key';
}

function ofMonth(figure: string, plan: Plan): readonly FoundResult[] | ChangeFault {
  const sheet = sheetOf(plan, 'month');
  if (sheet === undefined)
    return {
      message: 'There is no month in this book: it says nowhere how many pieces are expected to sell.',
      accepted,
      mend: 'Give the expected sales in sales_mix.csv, or ask for another result.',
    };
  const column = columnOf(figure, sheet, monthWords);
  if (column !== undefined)
    return [resultAt(sheet, column, 0, `month's ${readsOf(column, sheet, monthWords)}`)];
  const names = sheet.columns.filter(isResult).map((each) => `month's ${headingOf(each)}`);
  return {
    message: `The month has no “${figure}”.`,
    accepted: [...new Set(names)].join(', '),
    mend: mendName(`month's ${figure}`, names),
  };
}

function columnOf(figure: string, sheet: PlanSheet, words: readonly ResultWord[]): PlanColumn | undefined {
  const lower = figure.toLowerCase();
  const word = words.find((each) => each.sheet === sheet.id && each.words.includes(lower));
  const id = word?.column ?? lower.replace(/[\s-]+/g, '_');
  return sheet.columns.find((each) => isResult(each) && (each.id === id || headingOf(each) === lower));
}

function readsOf(column: PlanColumn, sheet: PlanSheet, words: readonly ResultWord[]): string {
  const word = words.find((each) => each.sheet === sheet.id && each.column === column.id);
  return word?.reads ?? word?.words[0] ?? headingOf(column);
}

/** Sheets with a row a product, in which a figure is looked for. */
const productSheets = ['prices', 'costs', 'break_even', 'products'];

function ofProducts(text: string, plan: Plan): readonly FoundResult[] | ChangeFault {
  const { figure, product, channel } = takeApart(text, plan);
  for (const id of productSheets) {
    const sheet = sheetOf(plan, id);
    if (sheet === undefined) continue;
    const words = resultWords.filter((each) => each.words.includes(figure.toLowerCase()));
    if (words.length > 0 && words.every((each) => each.sheet !== id)) continue;
    const column = columnOf(figure, sheet, resultWords);
    if (column === undefined) continue;
    if (channel !== undefined && !sheet.key.includes('channel'))
      return {
        message: `${column.heading.replace(/,.*$/, '')} is the same in every channel.`,
        accepted: `${figure} of a product`,
        mend: `Leave out “${channel}”.`,
      };
    const rows = rowsWhere(sheet, { product, channel });
    if (isFault(rows)) return rows;
    return rows.map((row) => resultAt(sheet, column, row));
  }
  const known = [
    ...resultWords.filter(({ sheet }) => sheetOf(plan, sheet) !== undefined).flatMap(({ words }) => words),
    ...(sheetOf(plan, 'month') === undefined ? [] : ["month's profit", "month's contribution"]),
  ];
  return {
    message: `“${text}” is no result of this book.`,
    accepted,
    mend: mendName(figure.toLowerCase(), known),
  };
}

interface Asked {
  readonly figure: string;
  readonly product: string | undefined;
  readonly channel: string | undefined;
}

/** `margin of fob short at stall`; names may hold `of`, `at` and `in` themselves, so known ones come first. */
function takeApart(text: string, plan: Plan): Asked {
  const products = keysOf(plan, 'products');
  const of = /^(.+?) (?:of|for) (.+)$/i.exec(text);
  const known = resultWords.flatMap(({ words }) => words).some((each) => each === text.toLowerCase());
  if (known) return { figure: text, product: undefined, channel: undefined };
  // "cost of cord of fob short": the shortest figure whose rest names a product comes first.
  for (const each of text.matchAll(/ (?:of|for) /gi)) {
    const figure = text.slice(0, each.index);
    const rest = text.slice(each.index + each[0].length);
    const split = whereOf(rest);
    if (has(products, rest)) return { figure, product: rest, channel: undefined };
    if (split !== undefined && has(products, split[0]))
      return { figure, product: split[0], channel: split[1] };
  }
  if (of !== null) {
    const split = whereOf(of[2]!);
    return { figure: of[1]!, product: split?.[0] ?? of[2], channel: split?.[1] };
  }
  const split = whereOf(text);
  if (split !== undefined) return { figure: split[0], product: undefined, channel: split[1] };
  return { figure: text, product: undefined, channel: undefined };
}

function whereOf(text: string): readonly [before: string, channel: string] | undefined {
  const at = /^(.+) (?:at|in|on) (?:the )?(.+)$/i.exec(text);
  return at === null ? undefined : [at[1]!, at[2]!];
}

function has(names: readonly string[], name: string): boolean {
  return names.some((each) => sameKey(each) === sameKey(name));
}

function keysOf(plan: Plan, id: string): string[] {
  const sheet = sheetOf(plan, id);
  return (sheet?.columns.find((each) => each.id === sheet.key[0])?.inputs ?? []).map(String);
}

function rowsWhere(
  sheet: PlanSheet,
  wanted: { readonly product: string | undefined; readonly channel: string | undefined },
): readonly number[] | ChangeFault {
  let rows = Array.from({ length: sheet.rowCount }, (_, row) => row);
  for (const [id, name] of Object.entries(wanted)) {
    if (name === undefined) continue;
    const keys = (sheet.columns.find((each) => each.id === id)?.inputs ?? []).map(String);
    const kept = rows.filter((row) => sameKey(keys[row]!) === sameKey(name));
    const names = [...new Set(keys)];
    if (kept.length === 0)
      return {
        message: `There is no ${id} “${name}” in this book.`,
        accepted: names.join(', '),
        mend: mendName(name, names),
      };
    rows = kept;
  }
  return rows;
}

function resultAt(sheet: PlanSheet, column: PlanColumn, row: number, name?: string): FoundResult {
  const key = (id: string): string | undefined => {
    const found = sheet.key.includes(id) ? sheet.columns.find((each) => each.id === id) : undefined;
    return found === undefined ? undefined : String(found.inputs?.[row] ?? '');
  };
  const [product, channel] = [key('product'), key('channel')];
  return {
    sheet: sheet.id,
    column: column.id,
    row,
    name: name ?? nameOf(sheet, column, row, product, channel),
    kind: column.kind,
    unit: column.unit || (/, (.+)$/.exec(column.heading)?.[1] ?? ''),
    ...(product === undefined ? {} : { product }),
    ...(channel === undefined ? {} : { channel }),
  };
}

function nameOf(
  sheet: PlanSheet,
  column: PlanColumn,
  row: number,
  product: string | undefined,
  channel: string | undefined,
): string {
  if (sheet.layout === 'form') return `${sheet.id}.${column.id}`;
  const first = productSheets.find((id) => id === sheet.id);
  if (first !== undefined && product !== undefined) {
    const figure = readsOf(column, sheet, resultWords);
    return `${figure} of ${product}${channel === undefined ? '' : ` at ${channel}`}`;
  }
  const keys = sheet.key.map((id) =>
    String(sheet.columns.find((each) => each.id === id)?.inputs?.[row] ?? ''),
  );
  return `${sheet.id}[${keys.join(', ')}].${column.id}`;
}

function bySheetLanguage(named: RegExpExecArray, plan: Plan): readonly FoundResult[] | ChangeFault {
  const [, sheetName = '', within, columnName = ''] = named;
  const sheet = namedSheet(plan, sheetName);
  if (!('columns' in sheet)) return sheet;
  const column = sheet.columns.find((each) => each.id === columnName.toLowerCase());
  if (column === undefined || !isResult(column)) {
    const names = sheet.columns.filter(isResult).map(({ id }) => id);
    return {
      message:
        column === undefined
          ? `The sheet ${sheet.id} has no column “${columnName}”.`
          : `${sheet.id}.${column.id} is not a figure that is worked out, so it is no result.`,
      accepted:
        names.length === 0
          ? 'a sheet with worked-out figures'
          : `a result of ${sheet.id}: ${names.join(', ')}`,
      mend: mendName(columnName, names),
    };
  }
  const rows = Array.from({ length: sheet.rowCount }, (_, row) => row);
  const kept =
    within === undefined || within.trim() === '' || sheet.layout === 'form'
      ? rows
      : pickRows(sheet, within, rows);
  if (isFault(kept)) return kept;
  const name = sheet.id === 'month' ? `month's ${readsOf(column, sheet, monthWords)}` : undefined;
  return kept.map((row) => resultAt(sheet, column, row, name));
}
