import type { Style } from 'exceljs';
import { type Attributes, element } from '../xml.ts';
import { cellProperties } from './cellProperties.ts';
import { dataStyle } from './dataStyle.ts';
import { NamedXml } from './namedXml.ts';

/** A rule that gives a cell another look, as the style of that cell refers to it. */
export interface StyleMap {
  readonly condition: string;
  /** Style of the other look. */
  readonly styleName: string;
  /** The cell that references in the condition are relative to. */
  readonly baseCell: string;
}

/** No rules: one list for all cells that have none. */
export const noMaps: readonly StyleMap[] = [];

/** The styles that sheets, columns, rows and cells of a workbook share. Each look is written once. */
export class StyleStore {
  readonly #sheets = new NamedXml('ta');
  readonly #columns = new NamedXml('co');
  readonly #rows = new NamedXml('ro');
  readonly #cells = new NamedXml('ce');
  readonly #rules = new NamedXml('Mark');
  /** Styles of cells and those of rules stand in different parts of the file, each with the formats it uses. */
  readonly #cellFormats = new NamedXml('N');
  readonly #ruleFormats = new NamedXml('F');
  /** Cells of a column share one style object, and its rules: their name is not sought twice. */
  readonly #known = new WeakMap<object, Map<readonly StyleMap[], string>>();

  /** The name of the style of a cell of this look, with the rules that may give it another. */
  cell(style: Partial<Style>, maps: readonly StyleMap[] = noMaps): string {
    const byMaps = this.#known.get(style) ?? new Map<readonly StyleMap[], string>();
    this.#known.set(style, byMaps);
    const known = byMaps.get(maps);
    if (known !== undefined) return known;
    const rules = maps.map(({ condition, styleName, baseCell }) =>
      element('style:map', {
        'style:condition': condition,
        'style:apply-style-name': styleName,
        'style:base-cell-address': baseCell,
      }),
    );
    const name = cellStyle(this.#cells, style, this.#cellFormats, rules.join(''));
    byMaps.set(maps, name);
    return name;
  }

  /** The name of the other look of a rule. */
  rule(style: Partial<Style>): string {
    return cellStyle(this.#rules, style, this.#ruleFormats, '');
  }

  column(widthPoints: number): string {
    const properties = {
      'fo:break-before': 'auto',
      'style:column-width': points(widthPoints),
    };
    return plainStyle(this.#columns, 'table-column', properties);
  }

  row(heightPoints: number): string {
    return plainStyle(this.#rows, 'table-row', {
      'style:row-height': points(heightPoints),
      'fo:break-before': 'auto',
      'style:use-optimal-row-height': false,
    });
  }

  sheet(masterPage: string, shown: boolean, tabColour: string | undefined): string {
    const properties = element('style:table-properties', {
      'table:display': shown,
      'style:writing-mode': 'lr-tb',
      'table:tab-color': tabColour,
    });
    return this.#sheets.name(masterPage + properties, (name) =>
      element(
        'style:style',
        { 'style:name': name, 'style:family': 'table', 'style:master-page-name': masterPage },
        properties,
      ),
    );
  }

  /** Styles of the cells of this workbook, for the part that holds the cells. */
  automatic(): string {
    return [this.#cellFormats, this.#columns, this.#rows, this.#sheets, this.#cells].join('');
  }

  /** Styles that rules put over cells, for the part that holds the styles a reader can choose from. */
  common(): string {
    return [this.#ruleFormats, this.#rules].join('');
  }
}

function cellStyle(to: NamedXml, style: Partial<Style>, formats: NamedXml, maps: string): string {
  const { numFmt } = style;
  const format =
    numFmt === undefined || numFmt === 'General'
      ? undefined
      : formats.name(numFmt, (name) => dataStyle(name, numFmt));
  const inside = cellProperties(style) + maps;
  return to.name(`${format ?? ''} ${inside}`, (name) =>
    element(
      'style:style',
      {
        'style:name': name,
        'style:family': 'table-cell',
        'style:parent-style-name': 'Default',
        'style:data-style-name': format,
      },
      inside,
    ),
  );
}

function plainStyle(to: NamedXml, family: string, attributes: Attributes): string {
  const properties = element(`style:${family}-properties`, attributes);
  return to.name(properties, (name) =>
    element('style:style', { 'style:name': name, 'style:family': family }, properties),
  );
}

/** To a hundredth of a point, as 72 times 0.08 is 5.760000000000001. */
function points(length: number): string {
  return `${Math.round(length * 100) / 100}pt`;
}
