import type { XmlReader } from '../readXml.ts';
import {
  type CellRange,
  lastColumn,
  lastRow,
  mostCells,
  mostMerged,
  mostSheets,
  type SavedCell,
  type SavedSheet,
  UnreadableWorkbook,
} from '../savedWorkbook.ts';
import { CellText } from './cellText.ts';

type Attributes = Readonly<Record<string, string>>;

/** Parts of a document that hold cells or texts which are not those of its sheets. */
const aside: readonly string[] = [
  'office:annotation',
  'table:tracked-changes',
  'table:shapes',
  'table:table-source',
  'table:scenario',
  'draw:frame',
  'draw:custom-shape',
  'office:forms',
];

/** Gathers sheets and cells while the content of a document is read. */
export class ContentReader implements XmlReader {
  readonly sheets: (SavedSheet & { merged: CellRange[] })[] = [];
  #rows = new Map<number, Map<number, SavedCell>>();
  #row = 0;
  #column = 0;
  #rowRepeat = 1;
  #cells = new Map<number, SavedCell>();
  #cell: Attributes | undefined;
  #text = new CellText();
  #count = 0;
  /** How deep inside a part that is left aside. */
  #aside = 0;
  #tables = 0;

  open(name: string, attributes: Attributes): void {
    if (this.#aside > 0 || aside.includes(name)) {
      this.#aside += 1;
      return;
    }
    switch (name) {
      case 'table:table':
        this.#tables += 1;
        if (this.#tables > 1) return;
        if (this.sheets.length >= mostSheets) throw new UnreadableWorkbook('too-large');
        this.#rows = new Map();
        this.#row = 1;
        this.sheets.push({ title: attributes['table:name'] ?? '', rows: this.#rows, merged: [] });
        return;
      case 'table:table-row':
        this.#column = 1;
        this.#cells = new Map();
        this.#rowRepeat = repeats(attributes['table:number-rows-repeated']);
        return;
      case 'table:table-cell':
      case 'table:covered-table-cell':
        this.#cell = attributes;
        this.#text = new CellText();
        return;
      default:
        if (this.#cell !== undefined) this.#text.open(name, attributes);
    }
  }

  text(part: string): void {
    if (this.#aside === 0 && this.#cell !== undefined) this.#text.text(part);
  }

  close(name: string): void {
    if (this.#aside > 0) {
      this.#aside -= 1;
      return;
    }
    if (name === 'table:table') this.#tables -= 1;
    else if (name === 'table:table-row') this.#endRow();
    else if (name === 'table:table-cell' || name === 'table:covered-table-cell') this.#endCell();
    else if (this.#cell !== undefined) this.#text.close(name);
  }

  #endCell(): void {
    const attributes = this.#cell ?? {};
    this.#cell = undefined;
    const repeat = repeats(attributes['table:number-columns-repeated']);
    const across = Number(attributes['table:number-columns-spanned'] ?? 1);
    const down = Number(attributes['table:number-rows-spanned'] ?? 1);
    if (across > 1 || down > 1) {
      const merged = this.sheets.at(-1)?.merged;
      if (merged !== undefined && merged.length >= mostMerged) throw new UnreadableWorkbook('too-large');
      merged?.push({
        top: this.#row,
        left: this.#column,
        bottom: this.#row + down - 1,
        right: this.#column + across - 1,
      });
    }
    const cell = savedCell(attributes, this.#text.whole);
    if (cell !== undefined) {
      if (this.#column + repeat - 1 > lastColumn) throw new UnreadableWorkbook('too-large');
      this.#room(repeat);
      for (let at = 0; at < repeat; at += 1) this.#cells.set(this.#column + at, cell);
    }
    this.#column += repeat;
  }

  #endRow(): void {
    if (this.#cells.size > 0) {
      if (this.#row + this.#rowRepeat - 1 > lastRow) throw new UnreadableWorkbook('too-large');
      this.#room(this.#cells.size * (this.#rowRepeat - 1));
      for (let at = 0; at < this.#rowRepeat; at += 1) this.#rows.set(this.#row + at, this.#cells);
    }
    this.#row += this.#rowRepeat;
  }

  /** Cells that are written once and meant many times can be more than a memory holds. */
  #room(more: number): void {
    this.#count += more;
    if (this.#count > mostCells) throw new UnreadableWorkbook('too-large');
  }
}

function repeats(text: string | undefined): number {
  const number = Number(text ?? 1);
  return Number.isInteger(number) && number > 0 ? number : 1;
}

function savedCell(attributes: Attributes, shown: string): SavedCell | undefined {
  const spelled = attributes['table:formula'];
  // The prefix says which language of formulas it is; after it an equals sign.
  const formula = spelled?.replace(/^(?:\w+:)?=/, '');
  const of = (kind: SavedCell['kind'], value: SavedCell['value']): SavedCell =>
    formula === undefined ? { kind, value } : { kind, value, formula };
  if (attributes['calcext:value-type'] === 'error') return of('error', shown);
  switch (attributes['office:value-type']) {
    case 'float':
    case 'percentage':
    case 'currency': {
      const number = Number(attributes['office:value']);
      if (!Number.isFinite(number)) throw new UnreadableWorkbook('damaged');
      return of('number', number);
    }
    case 'boolean':
      return of('truth', attributes['office:boolean-value'] === 'true');
    case 'date':
      return of('date', attributes['office:date-value'] ?? shown);
    case 'time':
      return of('time', attributes['office:time-value'] ?? shown);
    case 'string':
      return of('text', attributes['office:string-value'] ?? shown);
    default:
      return formula === undefined ? undefined : of('blank', null);
  }
}
