import type { Worksheet } from 'exceljs';
import type { PlanSheet } from '../../sheets/plan.ts';
import { cellText } from './cellContent.ts';
import { sentenceStyle } from './cellStyles.ts';

/** The first row: what the sheet answers. The cell beside it stays blank, since formulas add it up. */
export function writeSentence(page: Worksheet, sheet: PlanSheet): void {
  page.getCell('A1').value = cellText(sheet.answers);
  page.getCell('A1').style = sentenceStyle;
  page.getRow(1).height = 24;
}
