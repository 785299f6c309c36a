// Faults that a hand could make in a source file: an operator, a bound, a constant, a condition, a word of a formula.
import ts from 'typescript';

/** @typedef {{ at: number, end: number, text: string, says: string }} Mutant */

const swapped = new Map([
  [ts.SyntaxKind.PlusToken, ['-']],
  [ts.SyntaxKind.MinusToken, ['+']],
  [ts.SyntaxKind.AsteriskToken, ['/']],
  [ts.SyntaxKind.SlashToken, ['*']],
  [ts.SyntaxKind.PercentToken, ['*']],
  [ts.SyntaxKind.AsteriskAsteriskToken, ['*']],
  [ts.SyntaxKind.LessThanToken, ['<=', '>=']],
  [ts.SyntaxKind.LessThanEqualsToken, ['<', '>']],
  [ts.SyntaxKind.GreaterThanToken, ['>=', '<=']],
  [ts.SyntaxKind.GreaterThanEqualsToken, ['>', '<']],
  [ts.SyntaxKind.EqualsEqualsEqualsToken, ['!==']],
  [ts.SyntaxKind.ExclamationEqualsEqualsToken, ['===']],
  [ts.SyntaxKind.AmpersandAmpersandToken, ['||']],
  [ts.SyntaxKind.BarBarToken, ['&&']],
  [ts.SyntaxKind.QuestionQuestionToken, ['&&']],
  [ts.SyntaxKind.PlusEqualsToken, ['-=']],
  [ts.SyntaxKind.MinusEqualsToken, ['+=']],
  [ts.SyntaxKind.AsteriskEqualsToken, ['/=']],
  [ts.SyntaxKind.SlashEqualsToken, ['*=']],
]);

const otherName = new Map([
  ...[
    'max min',
    'ceil floor',
    'sin cos',
    'every some',
    'startsWith endsWith',
    'toUpperCase toLowerCase',
  ].flatMap((pair) => {
    const [one, other] = pair.split(' ');
    return [
      [one, other],
      [other, one],
    ];
  }),
  ['round', 'floor'],
  ['trunc', 'round'],
  ['sqrt', 'abs'],
  ['hypot', 'max'],
  ['abs', 'trunc'],
]);

/** Words for people: a reader judges them, not a number. */
const isForPeople = (node) => {
  for (let each = node; each !== undefined; each = each.parent) {
    if (ts.isPropertyAssignment(each) && ['unit', 'meaning', 'gives'].includes(each.name.getText()))
      return true;
    if (ts.isThrowStatement(each) || ts.isTypeNode(each) || ts.isImportDeclaration(each)) return true;
    if (ts.isExportDeclaration(each)) return true;
  }
  return false;
};

const inFormula = [
  [/\+/g, '-'],
  [/(?<![<>(,E])-/g, '+'],
  [/\*/g, '/'],
  [/\//g, '*'],
  [/\^/g, '*'],
  [/<=/g, '<'],
  [/>=/g, '>'],
  [/<(?![=>])/g, '<='],
  [/(?<!<)>(?!=)/g, '>='],
  [/\bMAX\b/g, 'MIN'],
  [/\bMIN\b/g, 'MAX'],
  [/\bSIN\b/g, 'COS'],
  [/\bCOS\b/g, 'SIN'],
  [/\bAND\b/g, 'OR'],
  [/\bINT\b/g, ''],
  [/(?<![\w.])\d+(\.\d+)?(?![\w.])/g, (number) => String(Number(number) + 1)],
];

/** Every fault of one file, in the order of its text. @returns {Mutant[]} */
export function mutateSource(name, text) {
  const file = ts.createSourceFile(name, text, ts.ScriptTarget.ES2022, true);
  const found = [];
  const replace = (node, by, says = by) => {
    const at = node.getStart(file);
    found.push({ at, end: node.end, text: by, says: `${text.slice(at, node.end).slice(0, 60)} -> ${says}` });
  };
  const replaceWithin = (node) => {
    const from = node.getStart(file);
    const written = text.slice(from, node.end);
    for (const [pattern, by] of inFormula) {
      for (const match of written.matchAll(pattern)) {
        const into = typeof by === 'string' ? by : by(match[0]);
        const at = from + match.index;
        const around = written.slice(Math.max(0, match.index - 12), match.index + match[0].length + 12);
        found.push({
          at,
          end: at + match[0].length,
          text: into,
          says: `in ${around}: ${match[0]} -> ${into}`,
        });
      }
    }
  };
  const condition = (node) => {
    if (node.kind === ts.SyntaxKind.TrueKeyword || node.kind === ts.SyntaxKind.FalseKeyword) return;
    replace(node, 'true');
    replace(node, 'false');
  };
  const visit = (node) => {
    if (isForPeople(node)) return;
    if (ts.isBinaryExpression(node)) {
      for (const by of swapped.get(node.operatorToken.kind) ?? []) replace(node.operatorToken, by);
    } else if (ts.isNumericLiteral(node)) {
      const value = Number(node.text);
      replace(node, Number.isInteger(value) ? String(value + 1) : String(value * 1.1));
    } else if (ts.isPrefixUnaryExpression(node)) {
      const sign = ts.tokenToString(node.operator);
      if (sign === '-' || sign === '!') replace(node, node.operand.getText(file));
      if (sign === '++' || sign === '--')
        replace(node, `${sign === '++' ? '--' : '++'}${node.operand.getText(file)}`);
    } else if (ts.isPropertyAccessExpression(node) && otherName.has(node.name.text)) {
      replace(node.name, otherName.get(node.name.text));
    } else if (ts.isStringLiteral(node) || ts.isNoSubstitutionTemplateLiteral(node)) {
      if (node.text !== '') replace(node, "''");
      if (ts.isNoSubstitutionTemplateLiteral(node) || /[-+*/^<>=(]/.test(node.text)) replaceWithin(node);
    } else if (ts.isTemplateExpression(node)) {
      replace(node, '``');
      for (const part of [node.head, ...node.templateSpans.map((span) => span.literal)]) replaceWithin(part);
    } else if (ts.isArrayLiteralExpression(node) && node.elements.length > 0) {
      replace(node, '[]');
    } else if (ts.isIfStatement(node)) {
      condition(node.expression);
    } else if (ts.isConditionalExpression(node)) {
      condition(node.condition);
    } else if (ts.isWhileStatement(node)) {
      replace(node.expression, 'false');
    } else if (node.kind === ts.SyntaxKind.TrueKeyword) {
      replace(node, 'false');
    } else if (node.kind === ts.SyntaxKind.FalseKeyword) {
      replace(node, 'true');
    } else if (ts.isBlock(node) && node.statements.length > 0) {
      replace(node, '{}');
    }
    ts.forEachChild(node, visit);
  };
  visit(file);
  const line = (at) => file.getLineAndCharacterOfPosition(at).line + 1;
  return found
    .sort((one, other) => one.at - other.at)
    .map(({ at, end, text: by, says }) => ({
      where: `${name}:${line(at)}`,
      line: text.split('\n')[line(at) - 1].trim(),
      says: says.replace(/\s+/g, ' '),
      text: text.slice(0, at) + by + text.slice(end),
    }));
}
