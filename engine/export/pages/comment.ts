import type { Cell } from 'exceljs';
import { ink } from '../palette.ts';
import { cellText } from './cellContent.ts';
import { font } from './cellStyles.ts';

/** A note on a heading, in the workbook's own type. */
export function addComment(cell: Cell, text: string): void {
  if (text === '') return;
  cell.note = {
    texts: [{ font: font({ color: { argb: ink } }), text: cellText(text) }],
    margins: { insetmode: 'custom', inset: [0.1, 0.1, 0.1, 0.1] },
  };
}
