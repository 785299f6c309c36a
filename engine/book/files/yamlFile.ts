import { isMap, isScalar, LineCounter, type Node, parseDocument, type YAMLParseError } from 'yaml';
import { type Place, type Problem, problem } from '../problems/problem.ts';
import { lineOfLostLetter, lostLetter } from './lostLetter.ts';

type Path = readonly (string | number)[];

/** A parsed YAML file that remembers where everything stood. */
export interface YamlFile {
  readonly file: string;
  /** Plain data; undefined where the file could not be parsed. */
  readonly data: unknown;
  readonly problems: readonly Problem[];
  /** Whether it holds named lines at all. */
  readonly isMap: boolean;
  /** Top-level keys in order. */
  readonly keys: readonly string[];
  /** The text of a top-level scalar as written (`18.50`, not 18.5); undefined where absent or blank. */
  text(key: string): string | undefined;
  /** True where the key is there but holds a list or a map. */
  isNested(key: string): boolean;
  /** Where the value at a path stands; the file itself where there is no such path. */
  place(...path: Path): Place;
}

/** Parses YAML 1.2; all syntax errors become problems with their lines. */
export function parseYaml(file: string, source: string): YamlFile {
  const lines = new LineCounter();
  const lostAt = lineOfLostLetter(source);
  // Letters of another character set are not worth parsing.
  const document = parseDocument(lostAt === undefined ? source : '', {
    lineCounter: lines,
    prettyErrors: false,
    logLevel: 'error',
  });
  const problems =
    lostAt === undefined ? syntaxProblems(document.errors, file, source, lines) : [notText(file, lostAt)];
  const plain = problems.length > 0 ? { data: undefined } : toPlain(document, file, source);
  if ('fault' in plain) problems.push(plain.fault);
  const broken = problems.length > 0;
  const root = document.contents;

  function nodeAt(path: Path): Node | undefined {
    for (let depth = path.length; depth > 0; depth -= 1) {
      const node = document.getIn(path.slice(0, depth), true);
      if (node !== undefined && node !== null && typeof node === 'object') return node as Node;
    }
    return undefined;
  }
  function scalar(key: string): string | undefined {
    if (broken || !isMap(root)) return undefined;
    const node = root.get(key, true);
    if (!isScalar(node) || node.value === null) return undefined;
    const text = (node.source ?? String(node.value)).trim();
    return text === '' ? undefined : text;
  }
  return {
    file,
    data: 'data' in plain ? plain.data : undefined,
    problems,
    isMap: !broken && isMap(root),
    keys: !broken && isMap(root) ? root.items.map((pair) => String(pair.key)) : [],
    text: scalar,
    isNested: (key) => !broken && isMap(root) && root.has(key) && !isScalar(root.get(key, true)),
    place: (...path) => {
      const start = nodeAt(path)?.range?.[0];
      return start === undefined ? { file } : { file, line: lines.linePos(start).line };
    },
  };
}

/** One slip often makes the parser stumble on: names that stand twice are all told, of the rest the first. */
function syntaxProblems(
  errors: readonly YAMLParseError[],
  file: string,
  source: string,
  lines: LineCounter,
): Problem[] {
  const twice = errors.filter((error) => error.code === 'DUPLICATE_KEY');
  const rest = errors.find((error) => error.code !== 'DUPLICATE_KEY');
  return [...twice, ...(rest === undefined ? [] : [rest])].map((error) => {
    const { message, mend } = plainWords(error, source);
    // A quotation mark is missed where the text ends; the maker must look at where it began.
    const at = /quote/.test(error.message)
      ? Math.max(source.lastIndexOf('"', error.pos[0]), source.lastIndexOf("'", error.pos[0]))
      : error.pos[0];
    return problem('yaml-syntax', { file, line: lines.linePos(Math.max(at, 0)).line }, message, {
      accepted: usual,
      mend,
    });
  });
}

const usual = 'lines such as name: value';
const tooDeep = {
  message: 'The lines or brackets are nested too deeply to be read.',
  mend: 'Take out the brackets, or the indents, that have no matter of their own.',
} as const;

function notText(file: string, line: number): Problem {
  const { message, ...detail } = lostLetter;
  return problem('yaml-syntax', { file, line }, message, detail);
}

/** What the parser's error means to someone who has never heard of YAML. */
function plainWords(error: YAMLParseError, source: string): { message: string; mend: string } {
  switch (error.code) {
    case 'DUPLICATE_KEY': {
      const [name] = source.slice(error.pos[0]).split(/[:\r\n]/, 1) as [string];
      return { message: `“${name.trim()}” stands twice.`, mend: 'Remove one of the two lines.' };
    }
    case 'TAB_AS_INDENT':
      return { message: 'This line is indented by a tab.', mend: 'Indent it with spaces.' };
    case 'BAD_INDENT':
      return {
        message: 'This line is indented unlike the lines above it.',
        mend: 'Line it up with the lines it belongs to.',
      };
    case 'MISSING_CHAR':
      if (/quote/.test(error.message)) {
        return {
          message: 'A quotation mark is opened and not closed.',
          mend: 'Close it, or leave out both quotation marks.',
        };
      }
      if (/Implicit map keys/.test(error.message)) {
        const [line] = source.slice(error.pos[0]).split(/[\r\n]/, 1) as [string];
        const glued = /^\s*(\w+):(\S.*?)\s*$/.exec(line);
        if (glued !== null) {
          return {
            message: 'This line has no space after its colon.',
            mend: `Write ${glued[1]}: ${glued[2]}`,
          };
        }
        return {
          message: 'This line has no colon after its name.',
          mend: 'Write a colon and a space between name and value.',
        };
      }
      return {
        message: 'A bracket, comma or colon is missing.',
        mend: 'Check the brackets, commas and colons near this line.',
      };
    case 'RESOURCE_EXHAUSTION':
      return tooDeep;
    case 'BLOCK_AS_IMPLICIT_KEY':
    case 'MULTILINE_IMPLICIT_KEY':
      return {
        message: 'This line and the next do not go together: the first has a value already, or has no colon.',
        mend: 'Check the indents and colons of both lines, and put text that holds a colon in quotation marks.',
      };
    default:
      return {
        message: `This line cannot be read (${error.message}).`,
        mend: 'Check the indents, quotes and colons near this line.',
      };
  }
}

/** Plain data of a document, or why it has none: repeats that would expand without bound, or lead nowhere. */
function toPlain(
  document: ReturnType<typeof parseDocument>,
  file: string,
  source: string,
): { data: unknown } | { fault: Problem } {
  try {
    return { data: document.toJS({ maxAliasCount: 100 }) };
  } catch (error) {
    const name = /Unresolved alias.*: (.*)$/.exec(String(error))?.[1];
    if (name !== undefined) {
      const line = source.slice(0, Math.max(0, source.indexOf(`*${name}`))).split('\n').length;
      const message = `“*${name}” calls for a part of the file that nothing above it is named for.`;
      const mend = 'Put text that begins with * in quotation marks.';
      return { fault: problem('yaml-syntax', { file, line }, message, { accepted: usual, mend }) };
    }
    if (error instanceof RangeError)
      return { fault: problem('yaml-syntax', { file }, tooDeep.message, { ...tooDeep, accepted: usual }) };
    return {
      fault: problem(
        'yaml-syntax',
        { file },
        'Parts of the file repeat each other (by & and *) so often that it grows without bound.',
        {
          accepted: usual,
          mend: 'Write the lines out, or put text that begins with & or * in quotation marks.',
        },
      ),
    };
  }
}
