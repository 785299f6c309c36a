import { cellReference } from '../cellReference.ts';
import { readXml } from '../readXml.ts';
import {
  type CellRange,
  lastColumn,
  lastRow,
  mostCells,
  mostMerged,
  type SavedCell,
  UnreadableWorkbook,
} from '../savedWorkbook.ts';
import { dateText } from './dateFormat.ts';
import { local, unescaped } from './readParts.ts';
import { SharedFormulas } from './sharedFormulas.ts';

/** What all sheets of a workbook share. */
export interface Shared {
  readonly texts: readonly string[];
  readonly dateStyles: readonly boolean[];
  readonly from1904: boolean;
  /** Cells of all sheets so far. */
  readonly count: { cells: number };
}

type Rows = Map<number, Map<number, SavedCell>>;

/** Cells and merged ranges of one sheet (ECMA-376 part 1, 18.3.1). */
export function readSheetPart(
  part: Iterable<Uint8Array>,
  shared: Shared,
): { readonly rows: Rows; readonly merged: CellRange[] } {
  const rows: Rows = new Map();
  const merged: CellRange[] = [];
  const formulas = new SharedFormulas();
  let row = 0;
  let column = 0;
  let cells = new Map<number, SavedCell>();
  let type = 'n';
  let style = 0;
  let formula: string | undefined;
  let formulaOf: Readonly<Record<string, string>> = {};
  let body = '';
  let value: string | undefined;
  let within: 'f' | 'v' | 't' | undefined;
  let aloud = false;

  function endCell(): void {
    const own =
      formula === undefined ? undefined : formulas.of(formula, formulaOf.si, row, column, formulaOf.t);
    const cell = savedCell(type, value, style, own, shared);
    if (cell === undefined) return;
    cells.set(column, cell);
    shared.count.cells += 1;
    if (shared.count.cells > mostCells) throw new UnreadableWorkbook('too-large');
  }

  readXml(part, {
    open: (name, attributes) => {
      switch (local(name)) {
        case 'row':
          // Rows and cells may leave out where they stand: then they follow the last one.
          row = attributes.r === undefined ? row + 1 : Number(attributes.r);
          if (!(Number.isInteger(row) && row >= 1 && row <= lastRow)) throw new UnreadableWorkbook('damaged');
          column = 0;
          cells = rows.get(row) ?? new Map();
          break;
        case 'c': {
          const at = attributes.r === undefined ? undefined : cellReference(attributes.r);
          column = at?.column ?? column + 1;
          if (column > lastColumn) throw new UnreadableWorkbook('damaged');
          type = attributes.t ?? 'n';
          style = Number(attributes.s ?? 0);
          formula = undefined;
          value = undefined;
          break;
        }
        case 'f':
          within = 'f';
          body = '';
          formulaOf = attributes;
          break;
        case 'v':
          within = 'v';
          body = '';
          break;
        case 'rPh':
          aloud = true;
          break;
        case 't':
          within = aloud ? undefined : 't';
          body = '';
          break;
        case 'mergeCell':
          addRange(attributes.ref ?? '', merged);
          break;
      }
    },
    text: (part) => {
      if (within !== undefined) body += part;
    },
    close: (name) => {
      const what = local(name);
      if (what === 'f') formula = body;
      else if (what === 'v') value = body;
      else if (what === 't' && within === 't') value = (value ?? '') + body;
      else if (what === 'rPh') aloud = false;
      else if (what === 'c') endCell();
      else if (what === 'row' && cells.size > 0) rows.set(row, cells);
      if (what === 'f' || what === 'v' || what === 't') within = undefined;
    },
  });
  return { rows, merged };
}

function savedCell(
  type: string,
  value: string | undefined,
  style: number,
  formula: string | undefined,
  { texts, dateStyles, from1904 }: Shared,
): SavedCell | undefined {
  const of = (kind: SavedCell['kind'], held: SavedCell['value']): SavedCell =>
    formula === undefined ? { kind, value: held } : { kind, value: held, formula };
  switch (type) {
    case 's':
      return of('text', texts[Number(value)] ?? '');
    case 'str':
    case 'inlineStr':
      return of('text', unescaped(value ?? ''));
    case 'b':
      return of('truth', value === '1' || value === 'true');
    case 'e':
      return of('error', value ?? '');
    case 'd':
      return of('date', value ?? '');
    default:
      break;
  }
  if (value === undefined || value.trim() === '')
    return formula === undefined ? undefined : of('blank', null);
  const number = Number(value);
  if (!Number.isFinite(number)) throw new UnreadableWorkbook('damaged');
  if (dateStyles[style] !== true) return of('number', number);
  const date = dateText(number, from1904);
  return of(date.kind, date.value);
}

function addRange(text: string, ranges: CellRange[]): void {
  const [first, last] = text.split(':').map(cellReference);
  if (first === undefined) return;
  const end = last ?? first;
  if (ranges.length >= mostMerged) throw new UnreadableWorkbook('too-large');
  ranges.push({ top: first.row, left: first.column, bottom: end.row, right: end.column });
}
