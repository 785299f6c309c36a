// Builds dist/: the program and the library, bundled and minified, since loading one file instead of hundreds
// halves the start. exceljs and the solver stay in chunks of their own that only `workbook`, `cut` and `mix` load.
//   node esbuild.config.mjs             build
//   node esbuild.config.mjs --if-stale  build only where a source is newer than the last build
import {
  copyFileSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { thirdPartyLicences } from './licences.mjs';

const top = dirname(fileURLToPath(import.meta.url));
const stamp = join(top, 'dist', 'sennit.js');

function newest(folder) {
  let latest = 0;
  for (const entry of readdirSync(folder, { withFileTypes: true })) {
    const path = join(folder, entry.name);
    latest = Math.max(latest, entry.isDirectory() ? newest(path) : statSync(path).mtimeMs);
  }
  return latest;
}

function isStale() {
  if (!existsSync(stamp)) return true;
  const built = statSync(stamp).mtimeMs;
  const sources = ['package.json', 'esbuild.config.mjs', 'licences.mjs'].map(
    (file) => statSync(join(top, file)).mtimeMs,
  );
  return (
    Math.max(
      ...['engine', 'cli', 'page', 'templates'].map((folder) => newest(join(top, folder))),
      ...sources,
    ) > built
  );
}

async function build() {
  const { build: bundle } = await import('esbuild');
  rmSync(join(top, 'dist'), { recursive: true, force: true });
  mkdirSync(join(top, 'dist'));
  const { version } = JSON.parse(readFileSync(join(top, 'package.json'), 'utf8'));
  const result = await bundle({
    absWorkingDir: top,
    entryPoints: { sennit: 'cli/main.ts', index: 'engine/index.ts', reference: 'engine/reference.ts' },
    outdir: 'dist',
    bundle: true,
    splitting: true,
    format: 'esm',
    platform: 'node',
    target: 'node20',
    minify: true,
    metafile: true,
    legalComments: 'none',
    logLevel: 'warning',
    define: { SENNIT_VERSION: JSON.stringify(version) },
    // Its parts, and not its ready-made file: that holds sixty packages without their licences, and twice the code.
    alias: { exceljs: './node_modules/exceljs/lib/exceljs.bare.js' },
    // Bundled CommonJS packages still ask for require and their own file name.
    banner: {
      js: "import{createRequire as __r}from'node:module';import{fileURLToPath as __f}from'node:url';const require=__r(import.meta.url),__filename=__f(import.meta.url);",
    },
  });
  // What runs in a written page: no module and nothing of Node, to stand inside it.
  const page = await bundle({
    absWorkingDir: top,
    entryPoints: ['page/main.ts'],
    outfile: 'dist/page.js',
    bundle: true,
    format: 'iife',
    globalName: 'sennitPage',
    platform: 'browser',
    target: 'es2022',
    charset: 'ascii',
    minify: true,
    metafile: true,
    legalComments: 'none',
    logLevel: 'warning',
  });
  // The solver's code is WebAssembly, which no bundle takes in; `cut` and `mix` read it from beside the program.
  copyFileSync(join(top, 'node_modules', 'highs', 'build', 'highs.wasm'), join(top, 'dist', 'highs.wasm'));
  // Shipped sheets are read once here, as reading YAML would take a third of every start.
  const { readSheetFiles } = await import(pathToFileURL(join(top, 'dist', 'index.js')).href);
  for (const folder of ['sheets', 'oneoff', 'month']) {
    const from = join(top, 'templates', folder);
    const files = new Map(
      readdirSync(from)
        .sort()
        .map((name) => [`templates/${folder}/${name}`, readFileSync(join(from, name), 'utf8')]),
    );
    writeFileSync(join(top, 'dist', `${folder}.json`), JSON.stringify(readSheetFiles(files)));
  }
  writeFileSync(
    join(top, 'dist', 'THIRD-PARTY-LICENCES.txt'),
    thirdPartyLicences(top, Object.keys({ ...result.metafile.inputs, ...page.metafile.inputs })),
  );
}

if (!process.argv.includes('--if-stale') || isStale()) await build();
