import { element, escapedText } from '../xml.ts';

/** What a cell of a format holds, as OpenDocument tells it from other numbers. */
export type FormatKind = 'text' | 'percentage' | 'date' | 'number';

/** One part of a section of a format code. */
type Part =
  | { readonly is: 'text'; readonly text: string }
  | { readonly is: 'number'; readonly code: string }
  | { readonly is: 'date'; readonly code: string };

const partOfCode =
  /"(?<quoted>[^"]*)"|\\(?<escaped>.)|_(?<gap>.)|(?<number>[#0][#0,.]*)|(?<date>y+|m+|d+)|(?<plain>[^"\\_#0;@*?[\]])/gy;

/** The sections of a format code, quoted text kept whole. */
function sectionsOf(code: string): string[] {
  return code.match(/(?:"[^"]*"|\\.|_.|[^;"\\_])+/g) ?? [];
}

function partsOf(section: string): Part[] {
  const parts: Part[] = [];
  const addText = (text: string): void => {
    const last = parts.at(-1);
    if (last?.is === 'text') parts[parts.length - 1] = { is: 'text', text: last.text + text };
    else parts.push({ is: 'text', text });
  };
  let end = 0;
  partOfCode.lastIndex = 0;
  for (const found of section.matchAll(partOfCode)) {
    end += found[0].length;
    const { quoted, escaped, gap, number, date, plain } = found.groups ?? {};
    if (number !== undefined) parts.push({ is: 'number', code: number });
    else if (date !== undefined) parts.push({ is: 'date', code: date });
    // There is no air of a letter's width in OpenDocument: two spaces are about as wide as a w.
    else if (gap !== undefined) addText('  ');
    else addText(quoted ?? escaped ?? plain ?? '');
  }
  if (end !== section.length) throw new Error(`Number format not understood: ${section}`);
  return parts;
}

export function formatKind(code: string): FormatKind {
  // Asked for every cell, and a workbook has a handful of formats.
  const known = kindsKnown.get(code);
  if (known !== undefined) return known;
  const kind = kindOf(code);
  kindsKnown.set(code, kind);
  return kind;
}

const kindsKnown = new Map<string, FormatKind>();

function kindOf(code: string): FormatKind {
  if (code === '@') return 'text';
  const parts = sectionsOf(code).flatMap(partsOf);
  if (parts.some(({ is }) => is === 'date')) return 'date';
  return parts.some((part) => part.is === 'text' && part.text.includes('%')) ? 'percentage' : 'number';
}

const dateParts: Readonly<Record<string, string>> = { y: 'number:year', m: 'number:month', d: 'number:day' };

function partXml(part: Part): string {
  if (part.is === 'text') return element('number:text', {}, escapedText(part.text));
  if (part.is === 'date') {
    const long = part.code.length > (part.code.startsWith('y') ? 2 : 1);
    return element(dateParts[part.code.charAt(0)] ?? '', { 'number:style': long ? 'long' : undefined });
  }
  const [whole = '', places = ''] = part.code.split('.');
  return element('number:number', {
    'number:decimal-places': places.length,
    'number:min-decimal-places': places.replaceAll('#', '').length,
    'number:min-integer-digits': whole.replaceAll(/[^0]/g, '').length,
    'number:grouping': whole.includes(',') ? true : undefined,
  });
}

/**
 * A number format code as the data style of OpenDocument: the section for zero is the style itself, those for
 * numbers above and below it are styles of their own that it leads to.
 */
export function dataStyle(name: string, code: string): string {
  const kind = formatKind(code);
  if (kind === 'text')
    return element('number:text-style', { 'style:name': name }, element('number:text-content'));
  const tag = {
    percentage: 'number:percentage-style',
    date: 'number:date-style',
    number: 'number:number-style',
  }[kind];
  const style = (own: string, section: string, more: string, volatile?: boolean): string =>
    element(tag, { 'style:name': own, 'style:volatile': volatile }, ...partsOf(section).map(partXml), more);
  const [positive = '', negative, zero] = sectionsOf(code);
  if (negative === undefined) return style(name, positive, '');
  const leads = (condition: string, to: string): string =>
    element('style:map', { 'style:condition': condition, 'style:apply-style-name': to });
  const below = style(`${name}P1`, negative, '', true);
  if (zero === undefined) return below + style(name, positive, leads('value()<0', `${name}P1`));
  return (
    style(`${name}P0`, positive, '', true) +
    below +
    style(name, zero, leads('value()>0', `${name}P0`) + leads('value()<0', `${name}P1`))
  );
}
