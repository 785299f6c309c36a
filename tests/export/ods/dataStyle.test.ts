import { expect, test } from 'vitest';
import { numberKinds } from '../../../engine/book/measures/kinds.ts';
import { dataStyle, formatKind } from '../../../engine/export/ods/dataStyle.ts';
import { numberFormat } from '../../../engine/export/pages/numberFormats.ts';
import { imperial } from '../../support/settings.ts';
import { childElements, elementsWithin, type XmlElement, xmlTree } from '../../support/xmlTree.ts';

function styles(code: string): XmlElement[] {
  return childElements(xmlTree(`<x xmlns:style="s" xmlns:number="n">${dataStyle('N1', code)}</x>`));
}

/** What a number would look like, as far as signs and words go: `#` stands for its digits. */
function drawn(style: XmlElement | undefined): string {
  return childElements(style ?? xmlTree('<a/>'))
    .map((part) => (part.name === 'number:number' ? '#' : part.children.join('')))
    .join('');
}

test('three sections are three styles, each of the values that it is for', () => {
  const [above, below, zero] = styles('#,##0.00_w;-#,##0.00_w;–_w');
  expect([above, below, zero].map(drawn)).toEqual(['#  ', '-#  ', '–  ']);
  expect(elementsWithin(zero ?? xmlTree('<a/>'), 'style:map').map(({ attributes }) => attributes)).toEqual([
    { 'style:condition': 'value()>0', 'style:apply-style-name': 'N1P0' },
    { 'style:condition': 'value()<0', 'style:apply-style-name': 'N1P1' },
  ]);
  expect(childElements(above ?? xmlTree('<a/>'), 'number:number')[0]?.attributes).toEqual({
    'number:decimal-places': '2',
    'number:min-decimal-places': '2',
    'number:min-integer-digits': '1',
    'number:grouping': 'true',
  });
});

test('words and marks in a format stay', () => {
  const [above] = styles('"▲ "0.0 %_w;"▲ "-0.0 %_w;"▲ "–_w');
  expect(drawn(above)).toBe('▲ # %  ');
  expect(above?.name).toBe('number:percentage-style');
  expect(drawn(styles('0.0" of; "\\x')[0])).toBe('# of; x');
});

test('one or two sections do as well, and a day is a day', () => {
  expect(styles('0.00').map(drawn)).toEqual(['#']);
  expect(styles('0;-0').map(drawn)).toEqual(['-#', '#']);
  const [day] = styles('yyyy-mm-dd');
  expect(day?.name).toBe('number:date-style');
  expect(childElements(day ?? xmlTree('<a/>')).map(({ name }) => name)).toEqual([
    'number:year',
    'number:text',
    'number:month',
    'number:text',
    'number:day',
  ]);
});

test('text is text, and what a cell holds follows from its format', () => {
  expect(styles('@')[0]?.name).toBe('number:text-style');
  expect(['@', '0.0 %', 'yyyy-mm-dd', '#,##0.00', '"%" 0'].map(formatKind)).toEqual([
    'text',
    'percentage',
    'date',
    'number',
    'percentage',
  ]);
});

test('every format of the workbook is understood, an unknown code is not passed over', () => {
  for (const kind of numberKinds) expect(() => styles(numberFormat(kind, imperial))).not.toThrow();
  expect(() => styles('[Red]0.00')).toThrow('not understood');
  expect(() => styles('0.00*x')).toThrow('not understood');
});
