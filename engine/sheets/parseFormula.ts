import { type NameReference, type Operator, operatorPower, type ParsedFormula } from './expression.ts';
import { type FormulaFault, Stop, type Token, tokens } from './formulaTokens.ts';

const deepest = 60;
/** Each operator deepens the tree by one, and what walks the tree later walks it by calling itself. */
const mostOperators = 500;

/**
 * Parses a formula of the sheet language. UPPERCASE is a function, lowercase a reference; numbers use a
 * decimal point and arguments are separated by commas whatever the book's own decimal mark.
 *
 * @returns the tree, or the first fault with its offset
 */
export function parseFormula(source: string): { tree: ParsedFormula } | { fault: FormulaFault } {
  try {
    const parser = new Parser(tokens(source));
    return { tree: parser.whole() };
  } catch (stop) {
    if (stop instanceof Stop) return { fault: stop.fault };
    throw stop;
  }
}

class Parser {
  readonly #tokens: readonly Token[];
  #next = 0;
  #depth = 0;
  #operators = 0;

  constructor(list: readonly Token[]) {
    this.#tokens = list;
  }

  whole(): ParsedFormula {
    if (this.#peek().kind === 'end')
      throw new Stop(0, 'The formula is empty.', 'Write a formula, or make the column an input.');
    const tree = this.#expression(0);
    const rest = this.#peek();
    if (rest.kind !== 'end') throw this.#surplus(rest);
    return tree;
  }

  /** What stands after a formula that could have ended; what stood before it tells the slip. */
  #surplus(rest: Token): Stop {
    const before = this.#tokens[this.#next - 1];
    const after = this.#tokens[this.#next + 1];
    if (rest.text === '(' && before?.kind === 'name') {
      return new Stop(
        before.at,
        `“${before.text}” is lowercase, so it is a column and not a function.`,
        `Functions are UPPERCASE: ${before.text.toUpperCase()}(…).`,
      );
    }
    if (rest.text === ',' && before?.kind === 'number' && after?.kind === 'number') {
      return new Stop(
        rest.at,
        '“,” does not write decimals here.',
        `Formulas have decimal points in every book: ${before.text}.${after.text}`,
      );
    }
    return new Stop(
      rest.at,
      `“${rest.text}” was not expected here.`,
      'An operator or a comma may be missing before it.',
    );
  }

  #peek(): Token {
    return this.#tokens[this.#next] ?? { kind: 'end', at: 0, text: '' };
  }

  #take(): Token {
    const token = this.#peek();
    this.#next += 1;
    return token;
  }

  #is(sign: string): boolean {
    const token = this.#peek();
    return token.kind === 'sign' && token.text === sign;
  }

  #expect(sign: string, mend: string): void {
    const token = this.#take();
    if (token.kind === 'sign' && token.text === sign) return;
    const found = token.kind === 'end' ? 'the formula ends' : `“${token.text}” stands`;
    throw new Stop(token.at, `“${sign}” is missing: ${found} here.`, mend);
  }

  #expression(weakest: number): ParsedFormula {
    this.#depth += 1;
    if (this.#depth > deepest)
      throw new Stop(
        this.#peek().at,
        'The formula is nested too deeply.',
        'Put a part of it in a column of its own.',
      );
    let left = this.#term();
    for (;;) {
      const token = this.#peek();
      const operator = token.text as Operator;
      if (
        token.kind !== 'sign' ||
        !Object.hasOwn(operatorPower, operator) ||
        operatorPower[operator] <= weakest
      )
        break;
      this.#operators += 1;
      if (this.#operators > mostOperators)
        throw new Stop(
          token.at,
          `The formula has more than ${mostOperators} operators.`,
          'Put a part of it in a column of its own, or add up with SUM(…).',
        );
      this.#take();
      left = { kind: 'binary', operator, left, right: this.#expression(operatorPower[operator]) };
    }
    this.#depth -= 1;
    return left;
  }

  #term(): ParsedFormula {
    const token = this.#take();
    switch (token.kind) {
      case 'number':
        return { kind: 'number', value: token.value };
      case 'text':
        return { kind: 'text', value: token.text.slice(1, -1).replaceAll('""', '"') };
      case 'function':
        return this.#call(token);
      case 'name':
        return { kind: 'reference', to: this.#reference(token) };
      case 'sign':
        if (token.text === '-') return { kind: 'negate', of: this.#expression(operatorPower['^']) };
        if (token.text === '+') return this.#expression(operatorPower['^']);
        if (token.text === '(') {
          const inner = this.#expression(0);
          this.#expect(')', 'Close the bracket.');
          return inner;
        }
        if (token.text === '=' && token.at === 0)
          throw new Stop(0, 'A formula begins without “=” here.', 'Leave out the “=”.');
        throw new Stop(
          token.at,
          `“${token.text}” was not expected here.`,
          'A name or a number may be missing before it.',
        );
      default:
        throw new Stop(token.at, 'The formula ends too early.', 'Finish it, or remove the last operator.');
    }
  }

  #call(name: Token): ParsedFormula {
    if ((name.text === 'TRUE' || name.text === 'FALSE') && !this.#is('('))
      return { kind: 'truth', value: name.text === 'TRUE' };
    if (!this.#is('(')) {
      if (/^[A-Z]{1,3}\d+$/.test(name.text))
        throw new Stop(
          name.at,
          `“${name.text}” is a cell address: cells are called by name here.`,
          'Write a column name, or sheet[key].column.',
        );
      throw new Stop(
        name.at,
        `“${name.text}” is UPPERCASE, so it is a function, and its bracket is missing.`,
        `Write ${name.text}(…), or lowercase for a column.`,
      );
    }
    this.#take();
    const args: ParsedFormula[] = [];
    if (!this.#is(')')) {
      args.push(this.#expression(0));
      while (this.#is(',')) {
        this.#take();
        args.push(this.#expression(0));
      }
    }
    this.#expect(')', `Close the bracket of ${name.text}.`);
    if ((name.text === 'TRUE' || name.text === 'FALSE') && args.length === 0)
      return { kind: 'truth', value: name.text === 'TRUE' };
    return { kind: 'call', name: name.text, args };
  }

  #reference(first: Token): NameReference {
    if (this.#is('.')) {
      this.#take();
      return { sheet: first.text, column: this.#columnName(), at: first.at };
    }
    if (!this.#is('[')) return { column: first.text, at: first.at };
    this.#take();
    const keys = [this.#expression(0)];
    while (this.#is(',')) {
      this.#take();
      keys.push(this.#expression(0));
    }
    this.#expect(']', 'Close the square bracket after the key.');
    this.#expect('.', `Say which column of ${first.text}: ${first.text}[…].column`);
    return { sheet: first.text, keys, column: this.#columnName(), at: first.at };
  }

  #columnName(): string {
    const token = this.#take();
    if (token.kind !== 'name')
      throw new Stop(token.at, 'A column name must follow the point.', 'Column names are lowercase.');
    return token.text;
  }
}
