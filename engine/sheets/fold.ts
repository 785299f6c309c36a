import type { Expression } from './expression.ts';
import type { CellValue } from './plan.ts';

/**
 * Simplifies a formula where the words of a row are fixed by the sheet file: in the row of the role "core",
 * `IF(role="core", a, b)` is `a`. Only fixed words take part, so nothing that the maker may change is lost.
 *
 * @param fixed values of fixed columns of the row, by column; references to them become literals
 */
export function fold(expression: Expression, fixed: ReadonlyMap<string, CellValue>): Expression {
  switch (expression.kind) {
    case 'reference': {
      const { to } = expression;
      const value = to.rows === 'same' ? fixed.get(to.column) : undefined;
      if (typeof value === 'string') return { kind: 'text', value };
      if (to.keys === undefined) return expression;
      return { kind: 'reference', to: { ...to, keys: to.keys.map((key) => fold(key, fixed)) } };
    }
    case 'negate':
      return { kind: 'negate', of: fold(expression.of, fixed) };
    case 'binary': {
      const left = fold(expression.left, fixed);
      const right = fold(expression.right, fixed);
      if (left.kind === 'text' && right.kind === 'text') {
        // Spreadsheets compare text without regard to capitals.
        const same = left.value.toLowerCase() === right.value.toLowerCase();
        if (expression.operator === '=') return { kind: 'truth', value: same };
        if (expression.operator === '<>') return { kind: 'truth', value: !same };
      }
      return { ...expression, left, right };
    }
    case 'call':
      return foldCall(
        expression.name,
        expression.args.map((argument) => fold(argument, fixed)),
      );
    default:
      return expression;
  }
}

function foldCall(name: string, args: readonly Expression[]): Expression {
  const [first, second, third] = args;
  if (name === 'IF' && first?.kind === 'truth' && second !== undefined && third !== undefined) {
    return first.value ? second : third;
  }
  if (name === 'AND' || name === 'OR') {
    const decides = name === 'OR';
    if (args.some((each) => each.kind === 'truth' && each.value === decides))
      return { kind: 'truth', value: decides };
    const open = args.filter((each) => each.kind !== 'truth');
    if (open.length === 0) return { kind: 'truth', value: !decides };
    return { kind: 'call', name, args: open };
  }
  return { kind: 'call', name, args };
}
