import type { DataValidation, Worksheet } from 'exceljs';
import { element } from '../xml.ts';
import { type Block, blockOf } from './conditions.ts';
import { NamedXml } from './namedXml.ts';
import { openFormula, rangeAddress } from './openFormula.ts';
import { paragraphs } from './paragraphs.ts';

/** The rule that the cells of a block are under, by its name in the file. */
export interface BlockRule {
  readonly block: Block;
  readonly name: string;
}

interface ValidatedPage extends Worksheet {
  readonly dataValidations: { readonly model: Readonly<Record<string, DataValidation | undefined>> };
}

/** The rules of input cells of a whole workbook: they stand together, and cells name theirs. */
export class Validations {
  readonly #rules = new NamedXml('val');

  /** Adds the rules of a sheet. */
  add(page: Worksheet): BlockRule[] {
    return Object.entries((page as ValidatedPage).dataValidations.model).flatMap(([range, rule]) => {
      if (rule === undefined) return [];
      const baseCell = rangeAddress(page.name, range.split(':')[0]!);
      const inside = errorMessage(rule);
      const attributes = {
        'table:condition': `of:${conditionOf(rule)}`,
        'table:allow-empty-cell': rule.allowBlank === true,
        'table:display-list': rule.type === 'list' ? 'unsorted' : undefined,
        'table:base-cell-address': baseCell,
      };
      const name = this.#rules.name(JSON.stringify(attributes) + inside, (own) =>
        element('table:content-validation', { 'table:name': own, ...attributes }, inside),
      );
      return [{ block: blockOf(range), name }];
    });
  }

  toString(): string {
    const rules = String(this.#rules);
    return rules === '' ? '' : element('table:content-validations', {}, rules);
  }
}

function errorMessage(rule: DataValidation): string {
  return element(
    'table:error-message',
    {
      'table:message-type': rule.errorStyle ?? 'stop',
      'table:title': rule.errorTitle,
      'table:display': rule.showErrorMessage === true,
    },
    paragraphs(rule.error ?? ''),
  );
}

const comparisons: Readonly<Record<string, string>> = {
  equal: '=',
  notEqual: '!=',
  lessThan: '<',
  lessThanOrEqual: '<=',
  greaterThan: '>',
  greaterThanOrEqual: '>=',
};

/** What a cell has to fulfil, as `table:condition` has it (ODF 1.3 part 3). */
function conditionOf({ type, operator, formulae }: DataValidation): string {
  const [first, second] = formulae.map(String);
  if (first === undefined) throw new Error(`A rule without a bound: ${type}`);
  if (type === 'custom') return `is-true-formula(${openFormula(first)})`;
  if (type === 'list') {
    const words = /^"(.*)"$/.exec(first)?.[1]?.split(',');
    const choices = words?.map((word) => `"${word}"`).join(';') ?? openFormula(first);
    return `cell-content-is-in-list(${choices})`;
  }
  if (type !== 'whole' && type !== 'decimal') throw new Error(`No rule of the workbook: ${type}`);
  const isNumber = `cell-content-is-${type === 'whole' ? 'whole' : 'decimal'}-number()`;
  const within =
    operator === undefined || operator === 'between'
      ? `cell-content-is-between(${first},${second})`
      : operator === 'notBetween'
        ? `cell-content-is-not-between(${first},${second})`
        : `cell-content()${comparisons[operator]}${first}`;
  return `${isNumber} and ${within}`;
}
