import type { ConditionalFormattingRule, Style, Worksheet } from 'exceljs';
import type { Settings } from '../../book/settings.ts';
import { cellAddress, columnLetters } from '../../sheets/address.ts';
import type { PlanColumn, PlanSheet } from '../../sheets/plan.ts';
import { headingRow } from '../../sheets/planIndex.ts';
import { badGround, barColour, good, ink, watchGround } from '../palette.ts';
import { ground } from './cellStyles.ts';
import { holdsText, numberFormat } from './numberFormats.ts';

/** exceljs writes a rule's number format only with an id, which its types leave out. */
interface MarkStyle extends Partial<Style> {
  readonly numFmtId?: number;
}

/** Ids below 164 belong to the formats that every program brings along; exceljs counts up from there. */
const firstMarkFormat = 900;

/** What a failed check looks like: ink in bold on a tinted ground, and a mark before the figure. */
function failedStyle(severity: 'error' | 'watch', format: string | undefined, formatId: number): MarkStyle {
  const fill = ground(severity === 'error' ? badGround : watchGround);
  return {
    font: { bold: true, color: { argb: ink } },
    // Rules take the colour of a solid ground from its other end.
    fill: { ...fill, bgColor: { argb: severity === 'error' ? badGround : watchGround } } as Style['fill'],
    ...(format === undefined ? {} : { numFmt: format, numFmtId: formatId }),
  };
}

/** In-cell bars, and the marks that failed checks leave: on the check, and on the figure that it is about. */
export function addMarks(page: Worksheet, sheet: PlanSheet, settings: Settings): void {
  if (sheet.rowCount === 0) return;
  let priority = 1;
  const add = (ref: string, rule: ConditionalFormattingRule): void => {
    page.addConditionalFormatting({ ref, rules: [{ ...rule, priority }] });
    priority += 1;
  };
  sheet.columns.forEach((column, at) => {
    if (column.check !== undefined) {
      const own = firstCell(sheet, at);
      const { severity } = column.check;
      add(rangeOf(sheet, at), {
        type: 'expression',
        formulae: [`${own}="look"`],
        style: failedStyle(severity, undefined, 0),
        priority,
      });
      add(rangeOf(sheet, at), {
        type: 'expression',
        formulae: [`${own}="well"`],
        style: { font: { color: { argb: good } } },
        priority,
      });
      const about = figureChecked(sheet, column);
      if (about !== undefined) {
        const format = markedFormat(sheet.columns[about], settings);
        add(rangeOf(sheet, about), {
          type: 'expression',
          formulae: [`$${own}="look"`],
          style: failedStyle(severity, format, firstMarkFormat + priority),
          priority,
        });
      }
    }
    if (column.bar) {
      // From zero, not from the least value: a bar's length is to stand for the figure.
      const bar = {
        type: 'dataBar',
        cfvo: [{ type: 'num', value: 0 }, { type: 'max' }],
        color: { argb: barColour },
        gradient: false,
        border: false,
        priority,
      } as const;
      add(rangeOf(sheet, at), bar as unknown as ConditionalFormattingRule);
    }
  });
}

/** The first figure that the check's own sentence names; keys only say which row it is. */
export function figureChecked(sheet: PlanSheet, column: PlanColumn): number | undefined {
  for (const [, id] of (column.check?.says ?? '').matchAll(/\{(\w+)\}/g)) {
    const at = sheet.columns.findIndex((each) => each.id === id && each.role !== 'key');
    if (at >= 0) return at;
  }
  return undefined;
}

/** The column's own format with a mark before it, since colour alone must not tell. */
function markedFormat(column: PlanColumn | undefined, settings: Settings): string | undefined {
  if (column === undefined || holdsText(column.kind)) return undefined;
  return numberFormat(column.kind, settings)
    .split(';')
    .map((part) => `"▲ "${part}`)
    .join(';');
}

function firstCell(sheet: PlanSheet, at: number): string {
  const { column, row } = cellAddress(sheet, at, 0);
  return `${columnLetters(column)}${row}`;
}

function rangeOf(sheet: PlanSheet, at: number): string {
  const first = firstCell(sheet, at);
  if (sheet.layout === 'form') return first;
  return `${first}:${columnLetters(at)}${headingRow + sheet.rowCount}`;
}
