import type { Alignment, Borders, Fill, Font, Style } from 'exceljs';
import type { Settings } from '../../book/settings.ts';
import type { PlanColumn } from '../../sheets/plan.ts';
import {
  accent,
  fontName,
  ink,
  inputGround,
  line,
  overrideGround,
  quiet,
  textSize,
  titleSize,
} from '../palette.ts';
import { digitsOfColumn, holdsText, numberFormat, textFormat } from './numberFormats.ts';

type CellStyle = Partial<Style>;

export function font(more: Partial<Font> = {}): Partial<Font> {
  return { name: fontName, size: textSize, color: { argb: ink }, ...more };
}

export function ground(argb: string): Fill {
  return { type: 'pattern', pattern: 'solid', fgColor: { argb } };
}

function rule(argb: string, side: 'top' | 'bottom'): Partial<Borders> {
  return { [side]: { style: 'thin', color: { argb } } };
}

/** The sentence in the first row. */
export const sentenceStyle: CellStyle = {
  font: font({ size: titleSize, color: { argb: accent } }),
  alignment: { vertical: 'middle', horizontal: 'left', indent: 1 },
};

export const labelStyle: CellStyle = {
  font: font(),
  alignment: { vertical: 'middle', horizontal: 'left', indent: 1, wrapText: true },
  border: rule(line, 'bottom'),
};

export const quietStyle: CellStyle = {
  font: font({ color: { argb: 'FF4A5661' } }),
  alignment: { vertical: 'middle', horizontal: 'left', indent: 1, wrapText: true },
  border: rule(line, 'bottom'),
};

/** Everything stands in a little, so that no column touches the next; numbers do it by their format. */
function sideOf(right: boolean): Partial<Alignment> {
  return right ? { horizontal: 'right' } : { horizontal: 'left', indent: 1 };
}

export function headingStyle(right: boolean): CellStyle {
  return {
    font: font({ bold: true, color: { argb: accent } }),
    fill: ground(quiet),
    alignment: { vertical: 'bottom', horizontal: right ? 'right' : 'left', indent: 1, wrapText: true },
    border: rule(accent, 'bottom'),
  };
}

/** Whether the column's cells stand to the right, as numbers do. */
export function standsRight(column: PlanColumn): boolean {
  return column.role !== 'check' && !holdsText(column.kind);
}

/**
 * The style of a record's cell. Inputs and overrides are the only cells that are unlocked, and they look it.
 * Computed words keep the general format: a formula in a text cell would turn into text when it is edited.
 */
export function cellStyle(column: PlanColumn, settings: Settings): CellStyle {
  // A formula that stands as text has been built into the workbook; to change it there would do nothing.
  const open = (column.role === 'input' || column.role === 'override') && column.kind !== 'formula';
  const fixedText = column.role !== 'computed' && column.role !== 'check';
  const words = column.role === 'check' || holdsText(column.kind);
  return {
    font: font({ bold: column.role === 'key' }),
    alignment: { vertical: 'middle', ...sideOf(standsRight(column)) },
    border: rule(line, 'bottom'),
    protection: { locked: !open },
    ...(open && column.role === 'input' ? { fill: ground(inputGround) } : {}),
    ...(column.role === 'override' ? { fill: ground(overrideGround) } : {}),
    ...(words
      ? fixedText
        ? { numFmt: textFormat }
        : {}
      : { numFmt: numberFormat(column.kind, settings, digitsOfColumn(column, settings)) }),
  };
}

/** Totals stand under a thin rule. */
export function totalStyle(column: PlanColumn, settings: Settings): CellStyle {
  return {
    font: font({ bold: true }),
    alignment: sideOf(standsRight(column)),
    border: rule(accent, 'top'),
    ...(column.total === undefined ? {} : { numFmt: numberFormat(column.kind, settings) }),
  };
}
