import { sameKey } from '../../book/book.ts';
import { meantName, mendName, someNames } from '../../book/problems/nearest.ts';
import type { Plan, PlanColumn, PlanSheet } from '../../sheets/plan.ts';
import type { ChangeFault, InputCells } from './change.ts';
import { exactRows, keysOf, pickRows, rowsOfBoth, rowsOfGroup, rowsOfNames, sheetOf } from './inputRows.ts';
import { type InputWord, inputWords, marginWords, materialGroups } from './inputWords.ts';
import { namedSheet } from './namedSheet.ts';

/** What a text names: cells that take a new value, and cells that only move along by per cents. */
export interface FoundInputs {
  readonly cells: readonly InputCells[];
  readonly along: readonly InputCells[];
  /** Present where the text means one figure that is the sum of the cells. */
  readonly together?: true;
}

const accepted =
  'an input such as wage, cord, buckles, fees of online, minutes of bar, margin of wholesale, or materials[slate cord].pack_price';

/**
 * Finds the input cells that a maker means.
 *
 * @param text `cord`, `buckles`, `slate` (a colour), `fees of online`, `margin of wholesale`, `EUR`;
 * or in the sheet language `materials[slate cord].pack_price`, `materials[colour=slate].pack_price`
 */
export function findInputs(text: string, plan: Plan): FoundInputs | ChangeFault {
  const plain = text.trim().replace(/\s+/g, ' ');
  const named = /^([a-z][a-z0-9_]*)(?:\[(.*)\])?\.([a-z][a-z0-9_]*)$/i.exec(plain);
  if (named !== null) return bySheetLanguage(named, plan);
  const lower = plain.toLowerCase();
  // Names and headings hold such words themselves: "stretch at breaking of type III".
  for (const of of plain.matchAll(/ (?:of|for|at|in) /gi)) {
    const figure = lower.slice(0, of.index);
    const found = figureOf(figure, plain.slice(of.index + of[0].length), plan);
    if (found !== undefined) return found;
  }
  if (marginWords.includes(lower)) return whole(plan, 'rates', ['wanted_margin_percent']);
  const word = inputWords.find(({ words }) => words.includes(lower));
  if (word !== undefined) {
    const { cells } = whole(plan, word.sheet, word.columns);
    return {
      cells,
      along: word.along === undefined ? [] : whole(plan, word.along.sheet, word.along.columns).cells,
      ...(word.together === undefined ? {} : { together: true }),
    };
  }
  const setting = settingNamed(lower, plan);
  if (setting !== undefined) return setting;
  // "cord prices", "online fees": the group first, then the figure.
  for (const each of inputWords) {
    const ending = each.words.find((one) => lower.endsWith(` ${one}`));
    if (ending === undefined) continue;
    const found = figureOf(ending, plain.slice(0, -ending.length - 1), plan);
    if (found !== undefined) return found;
  }
  // "supplier north mill", "colour slate": what the name is of may be said.
  const alone = groupAlone(plain.replace(/^(?:supplier|colou?r|materials?|currency)\s+/i, ''), plan);
  if (alone !== undefined) return alone;
  const many = namedRow(plain, plan);
  if (many !== undefined) return many;
  return unknown(plain, plan);
}

function unknown(name: string, plan: Plan): ChangeFault {
  const lower = name.toLowerCase();
  if (Object.hasOwn(materialGroups, lower))
    return {
      message: `Among the materials of this book is no ${lower}.`,
      accepted,
      mend: 'Nothing to change.',
    };
  const words = [...inputWords.flatMap((each) => each.words), ...Object.keys(materialGroups)];
  const own = ['materials', 'overheads', 'exchange'].flatMap((id) => keysOf(plan, id));
  // A part of the name of a product or weave names no figure, but tells where to go on.
  const rows = ['products', 'weaves', 'channels', 'families'].flatMap((id) => keysOf(plan, id));
  return {
    message: `“${name}” is no input of this book.`,
    accepted,
    mend:
      meantName(lower, [...words, ...own]) ??
      meantName(lower, rows) ??
      `Known: wage, overhead, tax, margin, cord, parts; materials, suppliers and colours by name (${someNames(own, 4)}); fees of ${someNames(keysOf(plan, 'channels'), 4)}; minutes of a weave; asking price of a product at a channel.`,
  };
}

/** The name of a weave, a product or a channel has many figures: says which there are. */
function namedRow(name: string, plan: Plan): ChangeFault | undefined {
  for (const id of ['weaves', 'products', 'channels', 'families']) {
    const sheet = sheetOf(plan, id);
    const [row] = sheet === undefined ? [] : exactRows(sheet, name);
    if (sheet === undefined || row === undefined) continue;
    const figures = sheet.columns.filter(
      (each) => isOpen(each) && typeof each.inputs?.[row] === 'number' && each.kind !== 'count',
    );
    const asked = [
      ...inputWords.flatMap((word) => {
        const of = sheetOf(plan, word.sheet);
        return of !== undefined && of.layout !== 'form' && exactRows(of, name).length > 0
          ? word.words.slice(0, 1)
          : [];
      }),
      ...figures.map(headingOf),
    ];
    return {
      message: `“${name}” is a row of ${sheet.title}, and has more figures than one.`,
      accepted: [...new Set(asked)].map((each) => `${each} of ${name}`).join(', ') || 'one of its figures',
      mend: 'Say which figure of it.',
    };
  }
  return undefined;
}

export function isFault(found: object): found is ChangeFault {
  return 'mend' in found;
}

export function isOpen(column: PlanColumn): boolean {
  return (column.role === 'input' || column.role === 'override') && column.kind !== 'formula';
}

/** Whole columns of a sheet. */
function whole(plan: Plan, id: string, columns: readonly string[]): FoundInputs {
  const sheet = sheetOf(plan, id);
  const rows = Array.from({ length: sheet?.rowCount ?? 0 }, (_, row) => row);
  return { cells: columns.map((column) => ({ sheet: id, column, rows })), along: [] };
}

function rowsWhere(id: string, columns: readonly string[], rows: readonly number[]): InputCells[] {
  return columns.map((column) => ({ sheet: id, column, rows }));
}

/** `fees of online`, `price of buckles`, `margin of wholesale`, `finished length of fob short`. */
function figureOf(figure: string, group: string, plan: Plan): FoundInputs | undefined {
  if (marginWords.includes(figure)) {
    for (const id of ['channels', 'products', 'prices']) {
      const rows = rowsOfGroup(plan, id, group);
      if (rows.length > 0) return { cells: rowsWhere(id, ['wanted_margin_percent'], rows), along: [] };
    }
    return undefined;
  }
  for (const word of inputWords.filter(({ words }) => words.includes(figure))) {
    const found = ofWord(word, group, plan);
    if (found !== undefined) return found;
  }
  // Any other figure by its heading or name: of a row known by its key, or of the rows that a word means.
  const id = figure.replace(/[\s-]+/g, '_');
  const having = plan.sheets.flatMap((sheet) => {
    const column = sheet.columns.find(
      (each) => isOpen(each) && (each.id === id || headingOf(each) === figure),
    );
    return sheet.layout === 'form' || column === undefined ? [] : [{ sheet, column: column.id }];
  });
  // A product before a test piece of the same weave: what is sold is meant.
  having.sort((one, other) => Number(other.sheet.id === 'products') - Number(one.sheet.id === 'products'));
  for (const rowsIn of [exactRows, rowsOfBoth, (sheet: PlanSheet) => rowsOfGroup(plan, sheet.id, group)]) {
    for (const { sheet, column } of having) {
      const rows = rowsIn(sheet, group);
      if (rows.length > 0) return { cells: [{ sheet: sheet.id, column, rows }], along: [] };
    }
  }
  return undefined;
}

/** `spare at each working end`, `cut step`: a line of book.yaml by its heading or name. */
function settingNamed(text: string, plan: Plan): FoundInputs | undefined {
  const id = text.replace(/[\s-]+/g, '_');
  for (const sheet of plan.sheets) {
    if (sheet.layout !== 'form') continue;
    const column = sheet.columns.find((each) => isOpen(each) && (each.id === id || headingOf(each) === text));
    if (column !== undefined) return whole(plan, sheet.id, [column.id]);
  }
  return undefined;
}

export function headingOf(column: PlanColumn): string {
  return column.heading.toLowerCase().replace(/,.*$/, '');
}

function ofWord(word: InputWord, group: string, plan: Plan): FoundInputs | undefined {
  if (sheetOf(plan, word.sheet)?.layout === 'form') return undefined;
  const rows = rowsOfGroup(plan, word.sheet, group);
  if (rows.length === 0) return undefined;
  const cells = rowsWhere(word.sheet, word.columns, rows);
  if (word.along === undefined) return { cells, along: [] };
  const along =
    word.along.sheet === word.sheet
      ? rows
      : rowsOfNames(
          plan,
          word.along.sheet,
          new Set(rows.map((row) => sameKey(keysOf(plan, word.sheet)[row]!))),
        );
  return { cells, along: rowsWhere(word.along.sheet, word.along.columns, along) };
}

/** `buckles`, `slate`, `EUR`, `rent of the loft`: what has one price goes up or down by it. */
function groupAlone(group: string, plan: Plan): FoundInputs | undefined {
  for (const id of ['exchange', 'overheads']) {
    const sheet = sheetOf(plan, id);
    const rows = sheet === undefined ? [] : exactRows(sheet, group);
    const word = inputWords.find((each) => each.sheet === id);
    if (rows.length > 0 && word !== undefined) return { cells: rowsWhere(id, word.columns, rows), along: [] };
  }
  const price = inputWords.find(({ sheet }) => sheet === 'materials');
  return price === undefined ? undefined : ofWord(price, group, plan);
}

/** `rates.wage_per_hour`, `materials[slate cord].pack_price`, `materials[colour=slate].pack_price`. */
function bySheetLanguage(named: RegExpExecArray, plan: Plan): FoundInputs | ChangeFault {
  const [, sheetName = '', within, columnName = ''] = named;
  const sheet = namedSheet(plan, sheetName);
  if (!('columns' in sheet)) return sheet;
  const open = sheet.columns.filter(isOpen);
  const column = open.find((each) => each.id === columnName.toLowerCase());
  if (column === undefined) {
    const exists = sheet.columns.some((each) => each.id === columnName.toLowerCase());
    const names = open.map(({ id }) => id);
    return {
      message: exists
        ? `${sheet.id}.${columnName} is worked out (or names a row), so it cannot be changed by itself.`
        : `The sheet ${sheet.id} has no column “${columnName}”.`,
      accepted: names.length === 0 ? 'a sheet with inputs' : `an input of ${sheet.id}: ${names.join(', ')}`,
      mend: exists ? 'Change what it is worked out from.' : mendName(columnName, names),
    };
  }
  const rows = Array.from({ length: sheet.rowCount }, (_, row) => row);
  const kept =
    within === undefined || within.trim() === '' || sheet.layout === 'form'
      ? rows
      : pickRows(sheet, within, rows);
  if ('mend' in kept) return kept;
  return { cells: [{ sheet: sheet.id, column: column.id, rows: kept }], along: [] };
}
