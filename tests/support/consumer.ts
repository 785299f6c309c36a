import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import ts from 'typescript';

const top = join(import.meta.dirname, '../..');

/** Runs a program and gives its output; npm writes its own logs into the fresh folder. */
export function run(command: string, args: readonly string[], folder: string): string {
  return execFileSync(command, args, { cwd: folder, encoding: 'utf8', stdio: ['ignore', 'pipe', 'pipe'] });
}

/** Packs what would be published; `npm test` has built it already, and building here would pull it from under other tests. */
export function pack(into: string): string {
  run('npm', ['pack', '--ignore-scripts', '--pack-destination', into], top);
  return join(into, readdirSync(into).find((file) => file.endsWith('.tgz')) ?? '');
}

/**
 * A project of somebody else's that has the packed library, and of this repository's packages only the types of Node.
 * Gone afterwards.
 */
export async function withConsumer<T>(use: (folder: string) => T | Promise<T>): Promise<T> {
  const folder = mkdtempSync(join(tmpdir(), 'sennit-consumer-'));
  try {
    const tarball = pack(folder);
    writeFileSync(join(folder, 'package.json'), '{ "name": "consumer", "type": "module", "private": true }');
    run('npm', ['install', '--offline', '--no-audit', '--no-fund', tarball], folder);
    mkdirSync(join(folder, 'node_modules', '@types'));
    for (const name of ['@types/node', 'undici-types'])
      symlinkSync(join(top, 'node_modules', name), join(folder, 'node_modules', name));
    return await use(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true, maxRetries: 3 });
  }
}

type Way = 'nodenext' | 'bundler';

const ways: Readonly<Record<Way, Pick<ts.CompilerOptions, 'module' | 'moduleResolution'>>> = {
  nodenext: { module: ts.ModuleKind.NodeNext, moduleResolution: ts.ModuleResolutionKind.NodeNext },
  bundler: { module: ts.ModuleKind.ESNext, moduleResolution: ts.ModuleResolutionKind.Bundler },
};

/** What the compiler says of files of that project, as strictly as it can, the declarations of the library included. */
export function typeErrors(
  folder: string,
  files: readonly string[],
  way: Way,
  types: readonly string[],
): readonly string[] {
  const program = ts.createProgram(
    files.map((file) => join(folder, file)),
    {
      ...ways[way],
      target: ts.ScriptTarget.ES2022,
      lib: ['lib.es2023.d.ts'],
      types: [...types],
      typeRoots: [join(folder, 'node_modules', '@types')],
      strict: true,
      noUncheckedIndexedAccess: true,
      exactOptionalPropertyTypes: true,
      isolatedModules: true,
      verbatimModuleSyntax: true,
      skipLibCheck: false,
      noEmit: true,
    },
  );
  return ts.getPreEmitDiagnostics(program).map(({ file, start, messageText }) => {
    const at =
      file === undefined
        ? ''
        : `${file.fileName}:${file.getLineAndCharacterOfPosition(start ?? 0).line + 1}: `;
    return `${at}${ts.flattenDiagnosticMessageText(messageText, '\n')}`;
  });
}
