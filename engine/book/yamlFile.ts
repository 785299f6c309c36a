import { isMap, isScalar, LineCounter, type Node, parseDocument } from 'yaml';
import { type Place, type Problem, problem } from './problem.ts';

type Path = readonly (string | number)[];

/** A parsed YAML file that remembers where everything stood. */
export interface YamlFile {
  readonly file: string;
  /** Plain data; undefined where the file could not be parsed. */
  readonly data: unknown;
  readonly problems: readonly Problem[];
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
  const document = parseDocument(source, { lineCounter: lines, prettyErrors: false });
  const problems = document.errors.map((error) =>
    problem('yaml-syntax', { file, line: lines.linePos(error.pos[0]).line }, `This is not valid YAML: ${error.message}.`, {
      accepted: 'lines such as name: value',
      mend: 'Check the indents, quotes and colons near this line.',
    }),
  );
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
    data: broken ? undefined : toPlain(document),
    problems,
    keys: !broken && isMap(root) ? root.items.map((pair) => String(pair.key)) : [],
    text: scalar,
    isNested: (key) => !broken && isMap(root) && root.has(key) && !isScalar(root.get(key, true)),
    place: (...path) => {
      const start = nodeAt(path)?.range?.[0];
      return start === undefined ? { file } : { file, line: lines.linePos(start).line };
    },
  };
}

/** Plain data of a document; a document whose aliases would expand without bound yields undefined. */
function toPlain(document: ReturnType<typeof parseDocument>): unknown {
  try {
    return document.toJS({ maxAliasCount: 100 });
  } catch {
    return undefined;
  }
}
