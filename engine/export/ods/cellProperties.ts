import type { Alignment, Border, Color, Fill, Font, Style } from 'exceljs';
import { cssColour, fontName, ink, textSize } from '../palette.ts';
import { type Attributes, element } from '../xml.ts';

/** How far an indent of one moves text in, as wide as three spaces of the workbook's type. */
const indentPoints = 8.5;

/** Weights of lines as spreadsheet programs draw them. */
const lineWidths: Readonly<Record<string, string>> = {
  hair: '0.25pt solid',
  thin: '0.74pt solid',
  medium: '1.75pt solid',
  thick: '2.5pt solid',
  dotted: '0.74pt dotted',
  dashed: '0.74pt dashed',
  double: '2.5pt double',
};

/** The properties of a cell style; what the style does not say is left to its parent. */
export function cellProperties(style: Partial<Style>): string {
  const { font, fill, border, alignment, protection } = style;
  const cell: Attributes = {
    'fo:background-color': groundOf(fill),
    'fo:border-top': lineOf(border?.top),
    'fo:border-bottom': lineOf(border?.bottom),
    'fo:border-left': lineOf(border?.left),
    'fo:border-right': lineOf(border?.right),
    'style:vertical-align': alignment?.vertical,
    'fo:wrap-option': alignment?.wrapText ? 'wrap' : undefined,
    'style:text-align-source': alignment?.horizontal === undefined ? undefined : 'fix',
    'style:cell-protect':
      protection?.locked === undefined ? undefined : protection.locked ? 'protected' : 'none',
  };
  const paragraph: Attributes = {
    'fo:text-align': sideOf(alignment?.horizontal),
    'fo:margin-left': alignment?.indent ? `${alignment.indent * indentPoints}pt` : undefined,
  };
  return [
    properties('style:table-cell-properties', cell),
    properties('style:paragraph-properties', paragraph),
    font === undefined ? '' : properties('style:text-properties', textProperties(font)),
  ].join('');
}

/** The type of the workbook, for cells that say nothing of their own. */
export const plainType: Partial<Font> = { name: fontName, size: textSize, color: { argb: ink } };

/** Type for letters of every script: a size that held for Latin letters only would leave the others behind. */
export function textProperties({ name, size, color, bold, italic, underline }: Partial<Font>): Attributes {
  const weight = bold === undefined ? undefined : bold ? 'bold' : 'normal';
  const posture = italic === undefined ? undefined : italic ? 'italic' : 'normal';
  const points = size === undefined ? undefined : `${size}pt`;
  return {
    'fo:color': colourOf(color),
    'style:font-name': name,
    'style:font-name-asian': name,
    'style:font-name-complex': name,
    'fo:font-size': points,
    'style:font-size-asian': points,
    'style:font-size-complex': points,
    'fo:font-weight': weight,
    'style:font-weight-asian': weight,
    'style:font-weight-complex': weight,
    'fo:font-style': posture,
    'style:font-style-asian': posture,
    'style:font-style-complex': posture,
    'style:text-underline-style': underline ? 'solid' : undefined,
    'style:text-underline-width': underline ? 'auto' : undefined,
    'style:text-underline-color': underline ? 'font-color' : undefined,
  };
}

/** Properties as an element, or nothing where there are none. */
export function properties(tag: string, attributes: Attributes): string {
  return Object.values(attributes).every((value) => value === undefined) ? '' : element(tag, attributes);
}

function colourOf(color: Partial<Color> | undefined): string | undefined {
  return color?.argb === undefined ? undefined : cssColour(color.argb).toLowerCase();
}

function groundOf(fill: Fill | undefined): string | undefined {
  return fill?.type === 'pattern' && fill.pattern === 'solid' ? colourOf(fill.fgColor) : undefined;
}

function lineOf(line: Partial<Border> | undefined): string | undefined {
  if (line?.style === undefined) return undefined;
  return `${lineWidths[line.style] ?? lineWidths.thin} ${colourOf(line.color) ?? '#000000'}`;
}

function sideOf(side: Alignment['horizontal'] | undefined): string | undefined {
  switch (side) {
    case undefined:
      return undefined;
    case 'right':
      return 'end';
    case 'center':
    case 'centerContinuous':
      return 'center';
    case 'justify':
    case 'distributed':
      return 'justify';
    default:
      return 'start';
  }
}
