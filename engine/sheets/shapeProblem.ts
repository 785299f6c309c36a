import type { YamlFile } from '../book/files/yamlFile.ts';
import { nearest } from '../book/problems/nearest.ts';
import { type Problem, problem } from '../book/problems/problem.ts';

/** What the schema library says of one fault. */
export interface ShapeIssue {
  readonly type: string;
  readonly expected: string | null;
  readonly received: string;
  readonly message: string;
  readonly path?: readonly { readonly key: unknown }[] | undefined;
}

/** Words that may stand in a sheet file, at its top and in a column. */
export interface SheetWords {
  readonly file: readonly string[];
  readonly column: readonly string[];
}

const examples: Readonly<Record<string, string>> = Object.freeze({
  rows: '{ each: products }, { table: runs }, { cross: products, with: channels } or { list: [ … ] }',
  columns: 'a list of columns, each beginning with “- id:”',
  belongs: '{ column: product, to: products }',
});

const types: Readonly<Record<string, string>> = Object.freeze({
  string: 'text',
  number: 'a number',
  boolean: 'true or false',
  Array: 'a list',
  Object: 'lines such as word: value',
});

const mendByExample = 'Compare with a sheet that comes with Sennit, such as templates/sheets/costs.yaml.';

/** What the shape of a sheet file lacks, in the words of the file rather than of the schema library. */
export function shapeProblem(issue: ShapeIssue, yaml: YamlFile, words: SheetWords): Problem {
  const path = (issue.path ?? []).map((step) => step.key as string | number);
  const place = path.length === 0 ? { file: yaml.file } : yaml.place(...path);
  const column = columnAt(path, yaml.data);
  const word = path.length === 2 && column !== undefined ? column : String(path.at(-1));
  const of = column === undefined || path.length < 3 ? '' : ` of ${column}`;
  const say = (message: string, found: string, accepted: string, mend: string = mendByExample): Problem =>
    problem('sheet-shape', place, message, { found, accepted, mend });

  if (path.length === 0) {
    const empty = yaml.data === null || yaml.data === undefined;
    return say(
      empty ? 'The sheet file is empty.' : 'This is not a sheet.',
      '',
      `lines with ${words.file.join(', ')}`,
    );
  }
  if (issue.type === 'strict_object' && issue.expected === 'never') {
    const known = path[0] === 'columns' && path.length === 3 ? words.column : words.file;
    const what =
      path.length === 3 && column !== undefined
        ? `${column.replace(/^c/, 'C')} cannot say “${word}”.`
        : `A sheet file cannot say “${path.join('.')}”.`;
    const near = nearest(word, known);
    return say(what, word, known.join(', '), near === undefined ? mendByExample : `Did you mean “${near}”?`);
  }
  if (issue.received === 'undefined') {
    return say(`The line “${word}:”${of} is missing.`, '', examples[word] ?? `a line ${word}: value`);
  }
  if (path[0] === 'rows')
    return say('rows does not say where the rows come from.', '', examples.rows as string);
  const found = issue.received.replace(/^"|"$/g, '');
  if (issue.type === 'picklist' || issue.type === 'literal') {
    const known = (issue.expected as string).replace(/[()"]/g, '').split(' | ');
    const near = nearest(found, known);
    return say(
      `${word}${of} cannot be “${found}”.`,
      found,
      known.join(', '),
      near === undefined ? 'Use one of those.' : `Did you mean “${near}”?`,
    );
  }
  if (issue.type === 'regex')
    return say(`${word}${of} cannot be “${found}”.`, found, issue.message, 'Rename it.');
  if (issue.type === 'min_length')
    return say(`${word}${of} is an empty list.`, '', examples[word] ?? 'at least one entry');
  const shown = found === 'null' ? 'blank' : (types[found] ?? `“${found}”`);
  const accepted = (issue.expected ?? 'something else')
    .replace(/[()"]/g, '')
    .split(' | ')
    .map((each) => types[each] ?? each)
    .join(' or ');
  return say(
    `${word}${of} is ${shown}.`,
    types[found] === undefined ? found : '',
    examples[word] ?? accepted,
  );
}

/** "column 2 (price)", for a path into the columns. */
function columnAt(path: readonly (string | number)[], data: unknown): string | undefined {
  const at = path[1];
  if (path[0] !== 'columns' || typeof at !== 'number') return undefined;
  const columns: unknown = (data as { columns?: unknown } | null)?.columns;
  const column: unknown = Array.isArray(columns) ? columns[at] : undefined;
  const id: unknown = (column as { id?: unknown } | null | undefined)?.id;
  return `column ${at + 1}${typeof id === 'string' ? ` (${id})` : ''}`;
}
