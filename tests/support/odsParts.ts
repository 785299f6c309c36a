import { strFromU8, unzipSync } from 'fflate';
import { columnLetters } from '../../engine/sheets/address.ts';
import { childElements, elementsWithin, type XmlElement, xmlTree } from './xmlTree.ts';

/** A cell as it stands in an .ods file, read without what wrote it. */
export interface OdsCell {
  readonly formula: string | undefined;
  readonly type: string | undefined;
  /** Text of an attribute that holds the value, or the text that stands in the cell. */
  readonly value: string | undefined;
  readonly style: string | undefined;
  readonly xml: XmlElement;
}

export interface OdsSheet {
  readonly table: XmlElement;
  readonly cells: ReadonlyMap<string, OdsCell>;
}

export interface OdsBook {
  readonly parts: ReadonlyMap<string, XmlElement>;
  readonly sheets: ReadonlyMap<string, OdsSheet>;
  /** Automatic styles of the content, by name. */
  readonly styles: ReadonlyMap<string, XmlElement>;
}

/** Where an element stood that is a space or a tab; no XML may hold it. */
const place = '\u0000';

/**
 * Text of a paragraph as ODF 1.3 part 3, 6.1.2 has it read: white space runs together and falls away at the
 * edges, but for what is written as elements.
 */
export function paragraphText(paragraph: XmlElement): string {
  const marks: string[] = [];
  const raw = (element: XmlElement): string =>
    element.children
      .map((child) => {
        if (typeof child === 'string') return child;
        if (child.name !== 'text:s' && child.name !== 'text:tab') return raw(child);
        marks.push(child.name === 'text:tab' ? '\t' : ' '.repeat(Number(child.attributes['text:c'] ?? 1)));
        return place;
      })
      .join('');
  // An element between two spaces does not keep them apart.
  let collapsed = '';
  let afterSpace = true;
  for (const letter of raw(paragraph).replaceAll(/[\t\r\n]/g, ' ')) {
    if (letter === ' ' && afterSpace) continue;
    if (letter !== place) afterSpace = letter === ' ';
    collapsed += letter;
  }
  return collapsed.replace(new RegExp(` (${place}*)$`), '$1').replaceAll(place, () => marks.shift() ?? '');
}

/** Paragraphs of an element, one a line. */
export function textOf(element: XmlElement): string | undefined {
  const lines = childElements(element, 'text:p');
  return lines.length === 0 ? undefined : lines.map(paragraphText).join('\n');
}

const valueAttributes = [
  'office:value',
  'office:boolean-value',
  'office:date-value',
  'office:string-value',
] as const;

function cellsOf(table: XmlElement): ReadonlyMap<string, OdsCell> {
  const cells = new Map<string, OdsCell>();
  elementsWithin(table, 'table:table-row').forEach((row, rowAt) => {
    let column = 0;
    for (const xml of childElements(row)) {
      const { attributes } = xml;
      const repeated = Number(attributes['table:number-columns-repeated'] ?? 1);
      const held = valueAttributes.map((name) => attributes[name]).find((value) => value !== undefined);
      if (repeated === 1)
        cells.set(`${columnLetters(column)}${rowAt + 1}`, {
          formula: attributes['table:formula'],
          type: attributes['office:value-type'],
          value: held ?? textOf(xml),
          style: attributes['table:style-name'],
          xml,
        });
      column += repeated;
    }
  });
  return cells;
}

export function writtenOds(bytes: Uint8Array): OdsBook {
  const parts = new Map(
    Object.entries(unzipSync(bytes))
      .filter(([name]) => name.endsWith('.xml'))
      .map(([name, part]) => [name, xmlTree(strFromU8(part))]),
  );
  const content = parts.get('content.xml');
  if (content === undefined) throw new Error('no content.xml');
  const automatic = elementsWithin(content, 'office:automatic-styles').flatMap((each) => childElements(each));
  return {
    parts,
    sheets: new Map(
      elementsWithin(content, 'table:table').map((table) => [
        table.attributes['table:name'] ?? '',
        { table, cells: cellsOf(table) },
      ]),
    ),
    styles: new Map(automatic.map((style) => [style.attributes['style:name'] ?? '', style])),
  };
}
