import type { Row } from 'exceljs';
import type { Content } from '../pages/cellContent.ts';
import type { Records } from '../pages/records.ts';
import { attributeText, openTag } from '../xml.ts';
import { contentValue } from './cell.ts';
import { openFormulas } from './openFormula.ts';
import { blankCells, type ColumnRules, rowElement } from './rowCells.ts';
import type { StyleStore } from './styleStore.ts';

/** The rows of records. Their styles are found before; their cells are made when they are asked for. */
export function recordRows(
  records: Records,
  styled: Row,
  columns: readonly ColumnRules[],
  styles: StyleStore,
  usual: number,
): Iterable<string> {
  const heights = new Map([...records.heights.values(), usual].map((height) => [height, styles.row(height)]));
  const cells = columns.map(({ mapsAt, rules }, at): RecordCell => {
    const cell = styled.findCell(at + 1);
    const maps = mapsAt(records.top);
    const hasStyle = cell !== undefined && Object.keys(cell.style).length > 0;
    const rule = rules.find(({ block }) => block.top <= records.top && records.top <= block.bottom);
    const start = openTag('table:table-cell', {
      'table:style-name': hasStyle || maps.length > 0 ? styles.cell(cell?.style ?? {}, maps) : undefined,
      'table:content-validation-name': rule?.name,
    });
    return { start, format: cell?.numFmt, spell: openFormulas() };
  });
  return (function* () {
    for (let at = 0; at < records.count; at += 1) {
      const style = heights.get(records.heights.get(at) ?? usual) ?? '';
      yield rowElement(style, recordCells(records.contents(at), cells));
    }
  })();
}

/** What the cells of a column have in common in all records. */
interface RecordCell {
  /** Its tag up to what each record has of its own. */
  readonly start: string;
  readonly format: string | undefined;
  readonly spell: (formula: string) => string;
}

function recordCells(contents: readonly (Content | undefined)[], columns: readonly RecordCell[]): string {
  let written = '';
  let blanks = 0;
  for (let at = 0; at < contents.length; at += 1) {
    const content = contents[at];
    const column = columns[at];
    if (content === undefined || column === undefined) {
      blanks += 1;
      continue;
    }
    const { attributes, text } = contentValue(content, column.format, column.spell);
    const start = `${blankCells(blanks)}${column.start}${attributeText(attributes)}`;
    written += text === '' ? `${start}/>` : `${start}>${text}</table:table-cell>`;
    blanks = 0;
  }
  return written;
}
