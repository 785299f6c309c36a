// Faults in the formulas of a sheet file: operators, bounds, constants, functions, branches, and a neighbour's column read instead.
import { parseDocument } from 'yaml';

const otherOperator = {
  '+': ['-'],
  '-': ['+'],
  '*': ['/'],
  '/': ['*'],
  '^': ['*'],
  '=': ['<>'],
  '<>': ['='],
  '<': ['<=', '>='],
  '<=': ['<', '>'],
  '>': ['>=', '<='],
  '>=': ['>', '<'],
};
const otherFunction = {
  MAX: 'MIN',
  MIN: 'MAX',
  AND: 'OR',
  OR: 'AND',
  ROUND: 'ROUNDUP',
  ROUNDUP: 'ROUNDDOWN',
  ROUNDDOWN: 'ROUNDUP',
  CEILING: 'FLOOR',
  SUM: 'MAX',
  COUNT: 'COUNTA',
  COUNTA: 'COUNT',
  SUMIF: 'COUNTIF',
};

const token =
  /(?<text>"[^"]*")|(?<call>[A-Z][A-Z_]*)(?=\()|(?<number>\d+(?:\.\d+)?)|(?<name>\{?[a-z][a-z0-9_]*\}?)|(?<operator><>|<=|>=|[-+*/^=<>&])|(?<mark>[()[\],.])|(?<space>\s+)|(?<other>.)/g;

function tokensOf(formula) {
  return [...formula.matchAll(token)].map((match) => {
    const [kind, text] = Object.entries(match.groups).find(([, value]) => value !== undefined);
    return { kind, text, at: match.index, end: match.index + text.length };
  });
}

/** Where the arguments of the call at `from` begin and end. */
function argumentsOf(tokens, from) {
  const args = [];
  let depth = 0;
  let start;
  for (const each of tokens.slice(from + 1)) {
    if ('(['.includes(each.text)) {
      depth += 1;
      if (depth === 1) start = each.end;
    } else if (')]'.includes(each.text) || (each.text === ',' && depth === 1)) {
      if (depth === 1) {
        args.push([start, each.at]);
        start = each.end;
      }
      if (')]'.includes(each.text)) depth -= 1;
      if (depth === 0) return args;
    }
  }
  return args;
}

/** The column that a wrong hand would read instead: the nearest of the same kind, those before it first. */
function neighbour(columns, id) {
  const at = columns.findIndex((each) => each.id === id);
  if (at < 0) return undefined;
  const alike = (each) => each.id !== id && each.kind === columns[at].kind && each.role !== 'check';
  return [...columns.slice(0, at).reverse(), ...columns.slice(at + 1)].find(alike)?.id;
}

function* faults(formula, own, sheets) {
  const tokens = tokensOf(formula);
  const cut = (from, to, by) => formula.slice(0, from) + by + formula.slice(to);
  for (const [index, { kind, text, at, end }] of tokens.entries()) {
    const solid = tokens.filter((each) => each.kind !== 'space');
    const before = solid[solid.findIndex((each) => each.at === at) - 1];
    if (kind === 'operator') {
      const isSign = before === undefined || before.kind === 'operator' || '([,'.includes(before.text);
      if (isSign) yield [`sign ${text} left out`, cut(at, end, '')];
      else for (const by of otherOperator[text] ?? []) yield [`${text} -> ${by}`, cut(at, end, by)];
    } else if (kind === 'number') {
      const by = String(Number(text) + 1);
      yield [`${text} -> ${by}`, cut(at, end, by)];
    } else if (kind === 'text') {
      yield [`${text} -> "other"`, cut(at, end, '"other"')];
    } else if (kind === 'call') {
      const by = otherFunction[text];
      if (by !== undefined) yield [`${text} -> ${by}`, cut(at, end, by)];
      const args = argumentsOf(tokens, index);
      const part = (which) => formula.slice(...args[which]);
      const close = args.at(-1)[1] + 1;
      if (text === 'IF') {
        yield [`IF(${part(0)}) -> always`, cut(at, close, `(${part(1)})`)];
        if (args.length > 2) yield [`IF(${part(0)}) -> never`, cut(at, close, `(${part(2)})`)];
      }
      if (['ISNUMBER', 'NOT'].includes(text)) {
        yield [
          `${text}(${part(0)}) turned round`,
          cut(at, close, text === 'NOT' ? `(${part(0)})` : `NOT(${formula.slice(at, close)})`),
        ];
      }
      if (['ROUND', 'ROUNDUP', 'ROUNDDOWN', 'CEILING', 'MAX', 'MIN', 'AND', 'OR'].includes(text)) {
        yield [`${text} left out, its first argument stays`, cut(at, close, `(${part(0)})`)];
      }
    } else if (kind === 'name') {
      const next = tokens[index + 1]?.text;
      if (next === '.' || next === '[') continue;
      const of = before?.text === '.' ? sheetOf(solid, solid.indexOf(before), sheets) : own;
      const by = of === undefined ? undefined : neighbour(of, text);
      if (by !== undefined) yield [`${text} -> ${by}`, cut(at, end, by)];
    }
  }
}

/** The columns of the sheet named before a dot, stepping over the key in brackets. */
function sheetOf(solid, dot, sheets) {
  let at = dot - 1;
  if (solid[at].text === ']') {
    for (let depth = 0; at >= 0; at -= 1) {
      if (solid[at].text === ']') depth += 1;
      if (solid[at].text === '[') depth -= 1;
      if (depth === 0) break;
    }
    at -= 1;
  }
  return sheets.get(solid[at].text);
}

/** Columns of every sheet by its name. @param {Map<string, string>} files */
export function columnsBySheet(files) {
  return new Map(
    [...files.values()].map((text) => {
      const { sheet, columns } = parseDocument(text).toJS();
      return [sheet, columns];
    }),
  );
}

/** Every fault of one sheet file; `only` names the columns, all where absent. */
export function mutateSheet(name, text, sheets, only) {
  const { sheet, columns } = parseDocument(text).toJS();
  return columns.flatMap(({ id, formula, blank }, index) => {
    if (only !== undefined && !only.includes(id)) return [];
    const changed = (key, value) => {
      const document = parseDocument(text);
      document.setIn(['columns', index, key], value);
      return String(document);
    };
    const found = [];
    if (formula !== undefined) {
      for (const [says, into] of faults(String(formula), columns, sheets)) {
        found.push({ where: `${sheet}.${id}`, says, text: changed('formula', into) });
      }
    }
    if (blank !== undefined && /^[\d.]+$/.test(String(blank))) {
      found.push({
        where: `${sheet}.${id}`,
        says: `blank ${blank} -> ${Number(blank) + 1}`,
        text: changed('blank', Number(blank) + 1),
      });
    }
    return found.map((each) => ({ ...each, where: `${name.replace(/^.*\//, '')} ${each.where}` }));
  });
}
