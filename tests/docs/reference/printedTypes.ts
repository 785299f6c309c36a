import { basename, dirname, join } from 'node:path';
import ts from 'typescript';

/** One field of what a command prints; `path` is the way to it, `channels[].name`. */
export interface PrintedField {
  readonly path: string;
  readonly type: string;
  /** Names of types with a table of their own that `type` speaks of. */
  readonly names: readonly string[];
  readonly isNumber: boolean;
  readonly optional: boolean;
  readonly meaning: string;
}

export interface PrintedType {
  readonly name: string;
  readonly meaning: string;
  readonly fields: readonly PrintedField[];
}

/** What commands print by `--json`, as the compiler sees it: by command what its calls of `json(…)` are given. */
export interface Printed {
  readonly commands: ReadonlyMap<string, readonly PrintedType[]>;
  readonly types: ReadonlyMap<string, PrintedType>;
}

const top = join(import.meta.dirname, '../../..');

function programOf(): ts.Program {
  const path = join(top, 'tsconfig.json');
  const { options } = ts.parseJsonConfigFileContent(
    ts.readConfigFile(path, ts.sys.readFile).config,
    ts.sys,
    top,
  );
  return ts.createProgram([join(top, 'cli/program.ts')], { ...options, skipLibCheck: true });
}

let read: Printed | undefined;

/** Reads the types of every `json(…)` call under `cli/commands`, once. Takes some seconds: it compiles the program. */
export function printedTypes(): Printed {
  read ??= readTypes();
  return read;
}

function readTypes(): Printed {
  const program = programOf();
  const checker = program.getTypeChecker();
  const types = new Map<string, PrintedType>();
  const symbols = new Map<string, ts.Symbol>();
  const docOf = (symbol: ts.Symbol | undefined): string =>
    ts
      .displayPartsToString(symbol?.getDocumentationComment(checker) ?? [])
      .replace(/\s*\n\s*/g, ' ')
      .trim();
  const isOurs = (symbol: ts.Symbol | undefined): boolean =>
    (symbol?.declarations ?? []).some((each) => !each.getSourceFile().fileName.includes('node_modules'));
  const elementOf = (type: ts.Type): ts.Type | undefined =>
    checker.isArrayType(type) || checker.isTupleType(type)
      ? checker.getTypeArguments(type as ts.TypeReference)[0]
      : undefined;

  /** Reads a named type once. */
  function named(type: ts.Type, name: string): string {
    const symbol = type.aliasSymbol ?? type.symbol;
    const known = symbols.get(name);
    if (known !== undefined && known !== symbol)
      throw new Error(`Two types are called ${name}: rename one, or the reference mixes them up`);
    symbols.set(name, symbol);
    if (types.has(name)) return name;
    types.set(name, { name, meaning: '', fields: [] });
    types.set(name, { name, meaning: docOf(symbol), fields: fieldsOf([type], '') });
    return name;
  }

  const nameOf = (type: ts.Type): string | undefined => {
    const symbol = type.aliasSymbol ?? (type.isClassOrInterface() ? type.symbol : undefined);
    return symbol !== undefined && isOurs(symbol) && isRecord(type) ? symbol.name : undefined;
  };
  const isRecord = (type: ts.Type): boolean =>
    (type.flags & (ts.TypeFlags.Object | ts.TypeFlags.Intersection)) !== 0 &&
    elementOf(type) === undefined &&
    type.getCallSignatures().length === 0;

  /** Records inside a type whose fields are told in the same table, and the way to them. */
  interface Inner {
    readonly types: readonly ts.Type[];
    readonly path: string;
  }

  /** How a type is told, the types it names, and what is inside it. */
  function told(type: ts.Type): { text: string; names: string[]; inner?: Inner } {
    if (type.isUnion() && (type.flags & ts.TypeFlags.Boolean) === 0) {
      const parts = type.types.filter((each) => (each.flags & ts.TypeFlags.Undefined) === 0);
      const booleans = parts.filter((each) => (each.flags & ts.TypeFlags.BooleanLiteral) !== 0);
      const others = parts.filter((each) => !booleans.includes(each)).map(told);
      const texts = [
        ...others.map(({ text }) => text),
        ...(booleans.length > 1 ? ['boolean'] : booleans.map((each) => checker.typeToString(each))),
      ];
      const inside = others.flatMap(({ inner }) => inner ?? []);
      const sorted = [...texts.filter((text) => text !== 'null'), ...texts.filter((text) => text === 'null')];
      return {
        text: [...new Set(sorted)].join(' or '),
        names: others.flatMap(({ names }) => names),
        ...(inside[0] === undefined
          ? {}
          : { inner: { types: inside.flatMap(({ types: each }) => each), path: inside[0].path } }),
      };
    }
    const element = elementOf(type);
    if (element !== undefined) {
      const of = told(element);
      return {
        text: of.text === 'object' ? 'list' : `list of ${of.text}`,
        names: of.names,
        ...(of.inner === undefined ? {} : { inner: { ...of.inner, path: `[]${of.inner.path}` } }),
      };
    }
    const name = nameOf(type);
    if (name !== undefined) return { text: name, names: [named(type, name)] };
    if (isRecord(type)) {
      const values = checker.getIndexTypeOfType(type, ts.IndexKind.String);
      if (values !== undefined) {
        const of = told(values);
        return { text: `object of ${of.text} by name`, names: of.names };
      }
      return { text: 'object', names: [], inner: { types: [type], path: '' } };
    }
    return { text: checker.typeToString(type).replaceAll('"', ''), names: [] };
  }

  const holdsNumbers = (type: ts.Type): boolean => {
    const of = elementOf(type);
    if (of !== undefined) return (of.flags & ts.TypeFlags.NumberLike) !== 0;
    return type.isUnion() ? type.types.some(holdsNumbers) : (type.flags & ts.TypeFlags.NumberLike) !== 0;
  };

  /** Fields of a record, or of several that may stand in its place: what not all of them have may be missing. */
  function fieldsOf(given: readonly ts.Type[], before: string): PrintedField[] {
    const symbols = given.map((type) => checker.getPropertiesOfType(type));
    const fieldNames = [...new Set(symbols.flatMap((each) => each.map(({ name }) => name)))];
    return fieldNames.flatMap((name) => {
      const of = symbols.flatMap((each) => each.find((symbol) => symbol.name === name) ?? []);
      const tolds = of.map((symbol) => told(checker.getTypeOfSymbol(symbol)));
      const inside = tolds.flatMap(({ inner }) => inner ?? []);
      const path = `${before}${name}`;
      return [
        {
          path,
          type: [...new Set(tolds.map(({ text }) => text))].join(' or '),
          names: [...new Set(tolds.flatMap(({ names }) => names))],
          isNumber: of.some((symbol) => holdsNumbers(checker.getTypeOfSymbol(symbol))),
          optional:
            of.length < given.length || of.some(({ flags }) => (flags & ts.SymbolFlags.Optional) !== 0),
          meaning: [...new Set(of.map(docOf).filter((each) => each !== ''))].join(' '),
        },
        ...(inside[0] === undefined
          ? []
          : fieldsOf(
              inside.flatMap(({ types: each }) => each),
              `${path}${inside[0].path}.`,
            )),
      ];
    });
  }

  const commands = new Map<string, PrintedType[]>();
  const add = (file: ts.SourceFile, type: ts.Type): void => {
    const command = basename(file.fileName, '.ts');
    const name = nameOf(type);
    const given: PrintedType =
      name === undefined
        ? { name: '', meaning: '', fields: fieldsOf([type], '') }
        : (types.get(named(type, name)) as PrintedType);
    commands.set(command, [...(commands.get(command) ?? []), given]);
  };
  /** Where an imported function is declared. */
  const declaredIn = (called: ts.Expression): string | undefined => {
    const symbol = checker.getSymbolAtLocation(called);
    if (symbol === undefined || (symbol.flags & ts.SymbolFlags.Alias) === 0) return undefined;
    return checker.getAliasedSymbol(symbol).declarations?.[0]?.getSourceFile().fileName;
  };
  const jsonFile = join(top, 'cli/terminal/json.ts');
  const sweptFile = join(top, 'cli/commands/swept.ts');
  for (const file of program.getSourceFiles()) {
    if (dirname(file.fileName) !== join(top, 'cli/commands')) continue;
    const visit = (node: ts.Node): void => {
      ts.forEachChild(node, visit);
      if (!ts.isCallExpression(node) || node.arguments[0] === undefined) return;
      const declared = declaredIn(node.expression);
      if (declared === jsonFile) {
        const type = checker.getTypeAtLocation(node.arguments[0]);
        // What a shared function prints is known where it is called.
        if ((type.flags & ts.TypeFlags.TypeParameter) === 0) add(file, type);
      } else if (declared === sweptFile && node.expression.getText() === 'tellSwept') {
        const show = checker.getResolvedSignature(node)?.getParameters()[2];
        const report =
          show === undefined
            ? undefined
            : checker.getTypeOfSymbolAtLocation(show, node).getCallSignatures()[0]?.getParameters()[0];
        if (report === undefined) throw new Error('tellSwept has no show(report, how) any more');
        add(file, checker.getTypeOfSymbolAtLocation(report, node));
      }
    };
    visit(file);
  }
  return { commands, types };
}
