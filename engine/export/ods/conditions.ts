import type { ConditionalFormattingRule, Worksheet } from 'exceljs';
import { badGround, cssColour } from '../palette.ts';
import { element } from '../xml.ts';
import { openFormula, rangeAddress } from './openFormula.ts';
import type { StyleMap, StyleStore } from './styleStore.ts';

/** A range of cells: columns and rows from 1. */
export interface Block {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** The rules of a block of cells that are formulas, in the order in which they count. */
export interface BlockMaps {
  readonly block: Block;
  readonly maps: readonly StyleMap[];
}

/** The conditional looks of a sheet, in two spellings. */
export interface ConditionalLooks {
  /** As OpenDocument has them: with the style of each cell. */
  readonly maps: readonly BlockMaps[];
  /** All of them once more, bars too, as an extension that LibreOffice reads: OpenDocument has no bars. */
  readonly xml: string;
}

/** exceljs keeps the rules of a sheet, but its types do not tell. */
interface RuledPage extends Worksheet {
  readonly conditionalFormattings: readonly {
    readonly ref: string;
    readonly rules: readonly ConditionalFormattingRule[];
  }[];
}

/** What a bar is drawn like, as the types of exceljs do not tell in full. */
interface BarRule {
  readonly color?: { readonly argb?: string };
  readonly cfvo: readonly { readonly type: string; readonly value?: number }[];
}

/** The conditional looks of a sheet. */
export function conditionalLooks(page: Worksheet, styles: StyleStore): ConditionalLooks {
  const byRange = new Map<string, ConditionalFormattingRule[]>();
  for (const { ref, rules } of (page as RuledPage).conditionalFormattings)
    byRange.set(ref, [...(byRange.get(ref) ?? []), ...rules]);
  const maps: BlockMaps[] = [];
  const formats: string[] = [];
  for (const [range, rules] of byRange) {
    const own: StyleMap[] = [];
    const baseCell = rangeAddress(page.name, range.split(':')[0]!);
    const entries = rules
      .sort((one, other) => one.priority - other.priority)
      .map((rule) => {
        if (rule.type === 'dataBar') return bar(rule as unknown as BarRule);
        if (rule.type !== 'expression') throw new Error(`No rule of the workbook: ${rule.type}`);
        const formula = openFormula(String(rule.formulae?.[0]));
        const styleName = styles.rule(rule.style ?? {});
        own.push({ condition: `is-true-formula(${formula})`, styleName, baseCell });
        return element('calcext:condition', {
          'calcext:apply-style-name': styleName,
          'calcext:value': `formula-is(${formula})`,
          'calcext:base-cell-address': baseCell,
        });
      });
    if (own.length > 0) maps.push({ block: blockOf(range), maps: own });
    const target = rangeAddress(page.name, range.includes(':') ? range : `${range}:${range}`);
    formats.push(
      element('calcext:conditional-format', { 'calcext:target-range-address': target }, ...entries),
    );
  }
  return { maps, xml: formats.length === 0 ? '' : element('calcext:conditional-formats', {}, ...formats) };
}

function bar({ color, cfvo }: BarRule): string {
  const entry = (at: 0 | 1): string => {
    const { type, value } = cfvo[at] ?? { type: 'max' };
    return element('calcext:formatting-entry', {
      'calcext:value': value ?? 0,
      'calcext:type': { num: 'number', min: 'minimum', max: 'maximum' }[type],
    });
  };
  return element(
    'calcext:data-bar',
    {
      'calcext:gradient': false,
      'calcext:min-length': 0,
      'calcext:max-length': 90,
      'calcext:negative-color': cssColour(badGround).toLowerCase(),
      'calcext:positive-color': cssColour(color?.argb ?? '').toLowerCase(),
      'calcext:axis-color': '#000000',
    },
    entry(0),
    entry(1),
  );
}

/** `B3:C20` as columns and rows. */
export function blockOf(range: string): Block {
  const cells = range.replaceAll('$', '').split(':');
  const [left, top] = cellOf(cells[0]!);
  const [right, bottom] = cellOf(cells.at(-1)!);
  return { left, top, right, bottom };
}

function cellOf(cell: string): readonly [column: number, row: number] {
  const [, letters = '', digits = ''] = /^([A-Z]+)(\d+)$/.exec(cell) ?? [];
  if (letters === '') throw new Error(`No cell: ${cell}`);
  let column = 0;
  for (const letter of letters) column = column * 26 + letter.charCodeAt(0) - 64;
  return [column, Number(digits)];
}
