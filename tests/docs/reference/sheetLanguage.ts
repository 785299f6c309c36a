import { cordFunctions } from '../../../engine/cord/index.ts';
import { sheetFunctions } from '../../../engine/sheets/functions.ts';
import { sheetFileWords } from '../../../engine/sheets/readSheetFile.ts';
import { code, markdownTable } from './markdown.ts';

const fileWords: Readonly<Record<string, string>> = {
  sheet: 'its name in formulas; lowercase',
  extends: 'instead of `sheet`: the sheet that the columns of this file are added to',
  title: 'its name in the workbook; up to 31 characters',
  answers: 'one sentence: the question that the sheet answers',
  place: 'its order among the sheets; 500 where nothing is said',
  rows: 'what there is a row for; see below',
  key: 'the column, or columns, that name a row',
  belongs: '`{ column: product, to: products }`: rows belong to the row of that sheet which the column names',
  each_size:
    'true: a row that names a product with a size run is spread over the sizes. Leave it out where a row is something that happened, such as a sale',
  only_with: 'the sheet stays out where that sheet does',
  only_with_rows: 'true: the sheet stays out where its table has no rows',
  stands_for: 'each row stands for the row of that sheet with the same key, and owns what belongs to it',
  repeats: 'true: rows may share a key, and whoever uses them adds them up',
  apart:
    'true: no price depends on the table, so a fault in it is something to look at, and an error only for commands that read it',
  columns: 'a list of columns',
};

const columnWords: Readonly<Record<string, string>> = {
  id: 'its name in formulas and in tables; lowercase',
  heading:
    'what stands above it; `{currency}`, `{length}`, `{cord}`, `{weight}` and `{force}` become the book’s own',
  unit: 'stands beside a figure of a form',
  kind: 'what it holds; the kinds stand in [tables.md](tables.md#what-cells-accept)',
  role: '`override`: an input whose blank means “use the computed one”. `check`: a formula that must be true',
  note: 'a sentence for whoever fills it in or reads it',
  formula: 'how it is worked out; `by row` takes it from the entries of a list',
  each: 'repeats the column for every row of that sheet',
  from: 'in a crossed sheet: the table that has rows only for some pairs',
  column: 'the column there',
  of: 'a sheet whose keys it names',
  choices: 'the words that it accepts',
  uses: 'of a column of formulas: the columns that they may name',
  required: 'true: it may not be blank',
  blank: 'what a blank cell stands for',
  blank_metric: 'the same in a book of centimetres or millimetres, where it differs',
  measured_by: 'of a quantity: the column that names its material',
  blank_from: 'the column whose text stands in for a blank',
  joins: 'of a key: the columns that it is put together from; they are then as fixed as it is',
  only_with: 'the column stays out where that sheet does',
  min: 'the least it accepts',
  above: 'it must be more than this',
  max: 'the most it accepts',
  below: 'it must be less than this',
  bar: 'true: a bar in each cell of the workbook',
  total: '`SUM`: a total under the column',
  severity: 'of a check: `watch` where it need not stop anyone',
  says: 'of a check: what is told; `{column}` is that column’s value',
  mend: 'of a check: how to mend it',
};

const rowForms: Readonly<Record<string, string>> = {
  form: '`{ form: book.yaml }`: the one record of `book.yaml`. `{ form: none }`: one record that is all formulas. `{ form: made }`: one record whose inputs a command puts in; without them the sheet stays out',
  table:
    '`{ table: materials }`: a row of `materials.csv`. A table of that name that comes with Sennit comes first, and the book’s rows replace its own by key',
  each: '`{ each: products }`: a row of another sheet',
  'cross with keep':
    '`{ cross: products, with: channels }`: a pair of rows of two sheets; with `keep: holds_for` only those where that column is not blank',
  'cross with as keep':
    '`{ cross: products, with: [core, over], as: role, keep: cord }`: a pair of a row and a word; only where the column `cord` is not blank',
  list: '`{ list: [...] }`: an entry written in the file',
  'made fixed':
    '`{ made: cutting_plan, fixed: [role] }`: a row of a table that a command makes; where none was made the sheet stays out. By the words of the columns in `fixed`, formulas are simplified row by row',
};

/** What the shared functions give; those of cord say it themselves. */
const functionMeanings: Readonly<Record<string, string>> = {
  ABS: 'the number without its sign',
  AND: 'true where all are true',
  AVERAGE: 'the mean of the numbers',
  CEILING: 'the number up to the next whole step; `CEILING(x, 0.5)`',
  COS: 'cosine of an angle in radians',
  COUNT: 'how many are numbers',
  COUNTA: 'how many are not blank',
  COUNTIF: 'how many of a column meet a condition',
  COUNTIFS: 'how many rows meet all conditions',
  EXP: 'e to that power',
  FLOOR: 'the number down to the next whole step',
  IF: '`IF(test, then, otherwise)`; all three are needed',
  IFERROR: 'the first, or the second where the first is an error',
  IFNA: 'the first, or the second where the first is not to be found',
  INT: 'down to the next whole number',
  ISNUMBER: 'whether it is a number',
  ISTEXT: 'whether it is text',
  LEN: 'how many characters',
  LN: 'natural logarithm',
  LOWER: 'in small letters',
  MAX: 'the greatest',
  MAXIFS: 'the greatest of a column where others meet conditions',
  MIN: 'the least',
  MINIFS: 'the least of a column where others meet conditions',
  MOD: 'what is left of a division',
  MROUND:
    'to the nearest whole step; beware of decimal ties, see [where programs differ](../../DEVELOPERS.md#where-programs-differ)',
  NOT: 'true where it is false',
  OR: 'true where one is true',
  PI: '3.14159…',
  RADIANS: 'degrees as radians',
  ROUND: 'to so many decimals, half away from zero on the shortest decimal of the number',
  ROUNDDOWN: 'to so many decimals, towards zero',
  ROUNDUP: 'to so many decimals, away from zero',
  SIN: 'sine of an angle in radians',
  SQRT: 'square root',
  SUM: 'the sum',
  SUMIF: 'the sum where a column meets a condition',
  SUMIFS: 'the sum of a column where others meet conditions',
  SUMPRODUCT: 'the sum of the products, row by row',
  SWITCH: '`SWITCH(x, a, first, b, second, otherwise)`',
  TAN: 'tangent of an angle in radians',
  TRUNC: 'without what follows its decimals',
  UPPER: 'in capital letters',
};

/** Rows in the order of the source, each told; throws where a word has no meaning here, or a meaning no word. */
function toldRows(
  words: readonly string[],
  told: Readonly<Record<string, string>>,
  what: string,
): string[][] {
  const missing = words.filter((word) => told[word] === undefined);
  const gone = Object.keys(told).filter((word) => !words.includes(word));
  if (missing.length + gone.length > 0)
    throw new Error(
      `${what}: tell ${missing.join(', ') || 'nothing'}; gone are ${gone.join(', ') || 'none'}`,
    );
  return words.map((word) => [code(word), told[word] ?? '']);
}

function argumentsText(fewest: number, most: number): string {
  if (most === Number.POSITIVE_INFINITY) return `${fewest} or more`;
  return fewest === most ? String(fewest) : `${fewest} to ${most}`;
}

/** The words of sheet files: a part of docs/reference/sheet-language.md. */
export function sheetWordsReference(): string {
  const forms = sheetFileWords.rows.map((words) => words.join(' '));
  return [
    '## Words of a file',
    markdownTable(['word', 'says'], toldRows(sheetFileWords.file, fileWords, 'words of a file')),
    '### `rows`: one row for each',
    toldRows(forms, rowForms, 'forms of rows')
      .map(([, says]) => `- ${says}.`)
      .join('\n'),
    '## Words of a column',
    markdownTable(['word', 'says'], toldRows(sheetFileWords.column, columnWords, 'words of a column')),
  ].join('\n\n');
}

/** Every function: another part of that page. */
export function functionsReference(): string {
  const ofCord = new Set(cordFunctions.map(({ name }) => name));
  const shared = [...sheetFunctions].filter(([name]) => !ofCord.has(name));
  const told = new Map(
    toldRows(
      shared.map(([name]) => name),
      functionMeanings,
      'functions',
    ).map(([name = '', says = '']) => [name, says]),
  );
  return [
    '## Functions that spreadsheet programs share',
    markdownTable(
      ['function', 'arguments', 'takes whole columns', 'gives'],
      shared.map(([name, { fewest, most, aggregate }]) => [
        code(name),
        argumentsText(fewest, most),
        aggregate ? 'yes' : '',
        told.get(code(name)) ?? '',
      ]),
    ),
    '## Functions of cord',
    markdownTable(
      ['function', 'gives', 'its arguments'],
      cordFunctions.map(({ name, args, gives }) => [
        code(`${name}(${args.map((each) => each.name).join(', ')})`),
        gives,
        args.map((each) => `${code(each.name)} (${each.unit}): ${each.meaning}`).join('; '),
      ]),
    ),
  ].join('\n\n');
}
