// Rolls the declarations of a face of the library up into one file. Types are explicit in the sources
// (isolatedDeclarations), so each file is turned by itself, and only files that the face speaks of are looked at.
import { readFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import ts from 'typescript';

/** The files that are looked at, with their declarations by name. */
class Declarations {
  #files = new Map();

  file(path) {
    const known = this.#files.get(path);
    if (known !== undefined) return known;
    const { outputText } = ts.transpileDeclaration(readFileSync(path, 'utf8'), {
      fileName: path,
      compilerOptions: { target: ts.ScriptTarget.ES2023, module: ts.ModuleKind.NodeNext },
    });
    const source = ts.createSourceFile(path, outputText, ts.ScriptTarget.ES2023, true);
    const found = { path, source, own: new Map(), from: new Map(), exported: [] };
    for (const statement of source.statements) readStatement(statement, found);
    this.#files.set(path, found);
    return found;
  }

  /** Where a name of a file is declared; undefined where it is none of ours (a type parameter, or the language's own). */
  resolve(path, name) {
    const file = this.file(path);
    if (file.own.has(name)) return { path, name, nodes: file.own.get(name), source: file.source };
    const from = file.from.get(name);
    if (from === undefined) return undefined;
    if (!from.module.startsWith('.'))
      throw new Error(`${path}: the face speaks of ${name} of ${from.module}`);
    return this.resolve(join(dirname(path), from.module), from.name);
  }
}

function readStatement(statement, found) {
  const isExported = (statement.modifiers ?? []).some(({ kind }) => kind === ts.SyntaxKind.ExportKeyword);
  if (ts.isImportDeclaration(statement) || ts.isExportDeclaration(statement)) {
    const bindings = ts.isImportDeclaration(statement)
      ? statement.importClause?.namedBindings
      : statement.exportClause;
    for (const { name, propertyName } of bindings?.elements ?? []) {
      if (ts.isExportDeclaration(statement)) found.exported.push(name.text);
      if (statement.moduleSpecifier !== undefined)
        found.from.set(name.text, {
          module: statement.moduleSpecifier.text,
          name: (propertyName ?? name).text,
        });
    }
    return;
  }
  const names = ts.isVariableStatement(statement)
    ? statement.declarationList.declarations.map(({ name }) => name.text)
    : [statement.name?.text];
  for (const name of names) {
    if (name === undefined) continue;
    found.own.set(name, [...(found.own.get(name) ?? []), statement]);
    if (isExported) found.exported.push(name);
  }
}

/** Names of types and values that a declaration speaks of. */
function namesIn(node) {
  const names = new Set();
  const visit = (each) => {
    const name = ts.isTypeReferenceNode(each)
      ? each.typeName
      : ts.isTypeQueryNode(each)
        ? each.exprName
        : ts.isExpressionWithTypeArguments(each) || ts.isComputedPropertyName(each)
          ? each.expression
          : undefined;
    if (name !== undefined && ts.isIdentifier(name)) names.add(name.text);
    each.forEachChild(visit);
  };
  visit(node);
  return names;
}

/**
 * What a face declares: its exports in its order, and what else must be declared beside them.
 *
 * @param entry path of the face
 * @param beside names that another face exports, and where it stands from this one
 * @returns items with name, docs, code (as a declaration without `export`), isExported
 */
export function declarationsOf(entry, beside = { names: new Set(), module: '' }) {
  const all = new Declarations();
  const items = new Map();
  const imported = new Set();
  const missing = new Set();
  const exported = new Set(all.file(entry).exported);
  const add = (path, name) => {
    const found = all.resolve(path, name);
    if (found === undefined) {
      if (exported.has(name)) throw new Error(`${name} of ${relative('.', entry)} is not found`);
      return;
    }
    if (beside.names.has(found.name) && !exported.has(found.name)) {
      imported.add(found.name);
      return;
    }
    const known = items.get(found.name);
    if (known !== undefined) {
      if (known.path !== found.path) throw new Error(`two things of the face are called ${found.name}`);
      return;
    }
    const isType = found.nodes.every(
      (node) => ts.isInterfaceDeclaration(node) || ts.isTypeAliasDeclaration(node),
    );
    // Whoever calls a function wants to name what goes in and comes out.
    if (isType && !exported.has(found.name)) missing.add(found.name);
    const item = { name: found.name, path: found.path, isType, isExported: exported.has(found.name) };
    items.set(found.name, item);
    Object.assign(item, textOf(found));
    for (const node of found.nodes) for (const each of namesIn(node)) add(found.path, each);
  };
  for (const name of exported) add(entry, name);
  if (missing.size > 0)
    throw new Error(
      `${relative('.', entry)} speaks of types and does not export them: ${[...missing].sort().join(', ')}`,
    );
  return { items: [...items.values()], imported: [...imported].sort(), module: beside.module };
}

function textOf({ nodes, source }) {
  const code = nodes
    .map((node) => source.text.slice(node.getStart(source), node.end).replace(/^(export |declare )+/, ''))
    .join('\n');
  const [comment] = ts.getLeadingCommentRanges(source.text, nodes[0].pos)?.slice(-1) ?? [];
  const docs = comment === undefined ? '' : source.text.slice(comment.pos, comment.end);
  return { code, docs: docs.startsWith('/**') ? docs : '' };
}

/** The rolled-up file. */
export function rolledUp({ items, imported, module }) {
  const head = imported.length === 0 ? [] : [`import type { ${imported.join(', ')} } from '${module}';`];
  const body = items.map(({ docs, code, isType, isExported }) => {
    const words = `${isExported ? 'export ' : ''}${isType ? '' : 'declare '}`;
    return `${docs === '' ? '' : `${docs}\n`}${words}${code}`;
  });
  // Without it everything in a declaration file counts as exported.
  return `${[...head, ...body, 'export {};'].join('\n\n')}\n`;
}
