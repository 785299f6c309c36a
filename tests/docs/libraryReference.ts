import ts from 'typescript';

/** A declaration of a face, with its words. */
interface Declared {
  readonly name: string;
  readonly kind: 'function' | 'value' | 'type';
  /** As it stands in the declarations, without `export declare`. */
  readonly code: string;
  readonly says: string;
  readonly params: readonly (readonly [name: string, says: string])[];
  readonly returns: string;
  readonly throws: string;
}

/** The page docs/reference/library.md, from the declarations that the package carries. */
export function libraryReference(index: string, node: string): string {
  const face = declared(index);
  const types = face.filter(({ kind }) => kind === 'type');
  const known = new Set(types.map(({ name }) => name));
  const told = (items: readonly Declared[]): string[] => items.map((each) => section(each, known));
  return `${[
    '# The library, function by function',
    'Written from the declarations in the sources (`npm run golden:refresh`); do not edit. How to begin: [library.md](../library.md).',
    `Functions: ${[...face, ...declared(node)]
      .filter(({ kind }) => kind === 'function')
      .map(({ name }) => link(name))
      .join(', ')}.`,
    '## Functions of `sennit`',
    ...told(face.filter(({ kind }) => kind === 'function')),
    '## Values of `sennit`',
    ...told(face.filter(({ kind }) => kind === 'value')),
    '## Functions of `sennit/node`',
    ...told(declared(node)),
    '## Types',
    ...told(types),
  ].join('\n\n')}\n`;
}

/** What a declaration file exports, by name. */
function declared(text: string): readonly Declared[] {
  const source = ts.createSourceFile('face.d.ts', text, ts.ScriptTarget.ES2023, true);
  const found = source.statements.flatMap((statement): Declared[] => {
    const isExported =
      ts.canHaveModifiers(statement) &&
      ts.getModifiers(statement)?.some(({ kind }) => kind === ts.SyntaxKind.ExportKeyword);
    if (!isExported) return [];
    const code = statement.getText(source).replace(/^(export |declare )+/, '');
    const docs = ts.getJSDocCommentsAndTags(statement).filter(ts.isJSDoc);
    const tags = docs.flatMap(({ tags = [] }) => [...tags]);
    const words = (tag: ts.JSDoc | ts.JSDocTag | undefined): string =>
      (ts.getTextOfJSDocComment(tag?.comment) ?? '').replace(/\s+/g, ' ').trim();
    const shared = {
      code,
      says: docs.map(words).join(' '),
      params: tags
        .filter(ts.isJSDocParameterTag)
        .map((tag) => [tag.name.getText(source), words(tag)] as const),
      returns: words(tags.find(ts.isJSDocReturnTag)),
      throws: words(tags.find(ts.isJSDocThrowsTag)),
    };
    if (ts.isVariableStatement(statement))
      return statement.declarationList.declarations.map((each) => ({
        ...shared,
        name: each.name.getText(source),
        kind: 'value',
      }));
    const named = statement as ts.DeclarationStatement;
    const name = named.name?.getText(source) ?? '';
    return [{ ...shared, name, kind: ts.isFunctionDeclaration(statement) ? 'function' : 'type' }];
  });
  return found.sort((one, other) => (one.name.toLowerCase() < other.name.toLowerCase() ? -1 : 1));
}

function section(
  { name, kind, code, says, params, returns, throws }: Declared,
  known: ReadonlySet<string>,
): string {
  const spoken =
    kind === 'type' ? [] : [...new Set(code.match(/\b[A-Z]\w+/g))].filter((each) => known.has(each));
  return [
    `### ${name}`,
    says,
    `\`\`\`ts\n${code}\n\`\`\``,
    params.map(([param, text]) => `- \`${param}\`: ${text.replace(/^- /, '')}`).join('\n'),
    returns === '' ? '' : `Gives ${sentence(returns)}`,
    throws === '' ? '' : `Throws ${sentence(throws)}`,
    spoken.length === 0 ? '' : `Types: ${spoken.map(link).join(', ')}.`,
  ]
    .filter((part) => part !== '')
    .join('\n\n');
}

function sentence(words: string): string {
  return words.endsWith('.') ? words : `${words}.`;
}

function link(name: string): string {
  return `[\`${name}\`](#${name.toLowerCase()})`;
}
