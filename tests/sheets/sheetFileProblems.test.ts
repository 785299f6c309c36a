import { describe, expect, it } from 'vitest';
import { readSheetFile } from '../../engine/sheets/readSheetFile.ts';
import { make, withFormula } from './workshop.ts';

const head = 'sheet: own\ntitle: Own\nanswers: What is it?\nrows: { each: goods }\nkey: good\n';
const column = '  - { id: good, heading: Good, kind: key }\n';

/** What is told of a sheet file: message, what is accepted and how to mend it. */
const told = (text: string) =>
  readSheetFile('sheets/own.yaml', text).problems.map(({ message, accepted, mend }) => ({
    message,
    accepted,
    mend,
  }));
const messages = (text: string) => told(text).map(({ message }) => message);

describe('a sheet file of the wrong shape', () => {
  it.each([
    ['', 'The sheet file is empty.'],
    ['# nothing but a remark\n', 'The sheet file is empty.'],
    ['just words\n', 'This is not a sheet.'],
    ['- sheet: own\n', 'This is not a sheet.'],
    [head, 'The line “columns:” is missing.'],
    [`${head}columns: []\n`, 'columns is an empty list.'],
    [`${head}columns: none\n`, 'columns is “none”.'],
    [`${head}columns:\n`, 'columns is blank.'],
    [`${head}columns: 5\n`, 'columns is “5”.'],
    [`${head}columns:\n${column}  - plain words\n`, 'column 2 is “plain words”.'],
    [`${head}columns:\n  - { heading: Good, kind: key }\n`, 'The line “id:” of column 1 is missing.'],
    [`${head}columns:\n${column}  - { id: 7, heading: A }\n`, 'id of column 2 is “7”.'],
    [`${head}columns:\n${column}  - { id: [a], heading: A }\n`, 'id of column 2 is a list.'],
    [`${head}columns:\n${column}  - { id: a, heading: }\n`, 'heading of column 2 (a) is blank.'],
    [
      `${head}columns:\n${column}  - { id: a, heading: { is: b } }\n`,
      'heading of column 2 (a) is lines such as word: value.',
    ],
    [
      `${head}columns:\n${column}  - { id: a, heading: A, kind: monny }\n`,
      'kind of column 2 (a) cannot be “monny”.',
    ],
    [
      `${head}columns:\n${column}  - { id: a, heading: A, kind: zebra }\n`,
      'kind of column 2 (a) cannot be “zebra”.',
    ],
    [
      `${head}columns:\n${column}  - { id: a, heading: A, requird: true }\n`,
      'Column 2 (a) cannot say “requird”.',
    ],
    [`${head}each_size: often\ncolumns:\n${column}`, 'each_size is “often”.'],
    [`${head}colour: red\ncolumns:\n${column}`, 'A sheet file cannot say “colour”.'],
    [
      `${head}belongs: { column: good, to: goods, also: b }\ncolumns:\n${column}`,
      'A sheet file cannot say “belongs.also”.',
    ],
    [
      `${head.replace('{ each: goods }', 'goods')}columns:\n${column}`,
      'rows does not say where the rows come from.',
    ],
    [`${head.replace('Own', 'History')}columns:\n${column}`, 'title cannot be “History”.'],
  ])('%j is told in its own words', (text, message) => {
    expect(messages(text)).toEqual([message]);
  });

  it('says what would do, and which word may have been meant', () => {
    const [kind] = told(`${head}columns:\n${column}  - { id: a, heading: A, kind: monny }\n`);
    expect(kind?.mend).toBe('Did you mean “money”?');
    expect(kind?.accepted).toContain('money, ');
    const [zebra] = told(`${head}columns:\n${column}  - { id: a, heading: A, kind: zebra }\n`);
    expect(zebra?.mend).toBe('Use one of those.');
    const [word] = told(`${head}columns:\n${column}  - { id: a, heading: A, requird: true }\n`);
    expect(word?.mend).toBe('Did you mean “required”?');
    const [often] = told(`${head}each_size: often\ncolumns:\n${column}`);
    expect(often?.accepted).toBe('true or false');
    const [empty] = told(`${head}columns: []\n`);
    expect(empty?.accepted).toBe('a list of columns, each beginning with “- id:”');
  });
});

describe('a formula that does not fit', () => {
  const of = (formula: string) => make(withFormula(formula)).problems.map(({ message }) => message);

  it.each([
    ['ABS(1, 2)', 'ABS takes 1 argument and has 2 here.'],
    ['ROUND(1)', 'ROUND takes 2 arguments and has 1 here.'],
    ['SUMIF(cords.price)', 'SUMIF takes 2 to 3 arguments and has 1 here.'],
    ['IF(1, 2, 3, 4)', 'IF takes 3 arguments and has 4 here.'],
    ['SUM()', 'SUM takes at least 1 argument and has 0 here.'],
    ['goods[good, good].length', 'A row of goods is known by one name, and 2 names are given.'],
    ['rates[good].wage', 'A row of rates is known by no name, and one name is given.'],
  ])('%s is told so', (formula, message) => {
    expect(of(formula)).toContain(message);
  });

  it('shows a stretch of a long one round the slip, and all of a short one', () => {
    const long = (slip: string) => `${'1 + '.repeat(40)}${slip}${' + 1'.repeat(40)}`;
    const found = (formula: string) => make(withFormula(formula)).problems[0]?.found ?? '';
    expect(found('1 + lenght')).toBe('1 + lenght');
    expect(found(long('lenght'))).toMatch(/^….*lenght.*…$/);
    expect(found(`lenght${' + 1'.repeat(40)}`)).toMatch(/^lenght.*…$/);
    expect(found(`${'1 + '.repeat(40)}lenght`)).toMatch(/^….*lenght$/);
  });
});

describe('rows and their names', () => {
  it('are those of a sheet whose rows have one name each, where a column names one of them', () => {
    const of = (sheet: string) =>
      make({
        more: `extends: goods\ncolumns:\n  - { id: own, heading: Own, kind: ref, of: ${sheet} }\n`,
      }).problems.map(({ message }) => message);
    expect(of('cords')).toEqual([]);
    expect(of('tickets')).toEqual(['of: the rows of the sheet “tickets” are not known by one name.']);
    expect(of('nowhere')).toEqual(['of: there is no sheet “nowhere”.']);
  });

  const own = (rows: string, key: string) =>
    make({
      own: `sheet: own\ntitle: Own\nanswers: x\nrows: ${rows}\n${key}columns:\n  - { id: good, heading: Good, kind: key }\n  - { id: cord, heading: Cord, kind: key }\n  - { id: figure, heading: Figure, kind: number, formula: "1" }\n`,
    }).problems.map(({ message, accepted }) => [message, accepted]);

  it('need a key column for every sheet that they come from', () => {
    expect(own('{ cross: goods, with: cords }', 'key: good\n')[0]).toEqual([
      'The rows of own need two key columns, and key names 1.',
      'key: [product, channel]',
    ]);
    expect(own('{ each: goods }', '')[0]).toEqual([
      'The rows of own need one key column, and key names none.',
      'key: product',
    ]);
  });
});
