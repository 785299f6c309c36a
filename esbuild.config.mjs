// Builds dist/: the program and the library (for Node, and for pages in dist/browser/), bundled and minified, since
// loading one file instead of hundreds halves the start. exceljs and the solver stay in chunks of their own that only
// `workbook`, `cut` and `mix` load.
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
import { fileURLToPath } from 'node:url';
import { declarationsOf, rolledUp } from './build/declarations.mjs';
import { thirdPartyLicences } from './build/licences.mjs';
import { builtTemplates, sheetTexts, templatesModule } from './build/templates.mjs';

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
  const sources = ['package.json', 'esbuild.config.mjs'].map((file) => statSync(join(top, file)).mtimeMs);
  return (
    Math.max(
      ...['engine', 'cli', 'library', 'page', 'build', 'templates'].map((folder) =>
        newest(join(top, folder)),
      ),
      ...sources,
    ) > built
  );
}

/** The engine's own reader of sheet files, bundled by itself: the bundles want what it reads. */
async function sheetReader(bundle) {
  const { outputFiles } = await bundle({
    absWorkingDir: top,
    entryPoints: ['engine/sheets/readDefinitions.ts'],
    bundle: true,
    format: 'esm',
    platform: 'neutral',
    mainFields: ['module', 'main'],
    write: false,
    logLevel: 'warning',
  });
  const code = Buffer.from(outputFiles[0].contents).toString('base64');
  const { readSheetFiles } = await import(`data:text/javascript;base64,${code}`);
  return readSheetFiles;
}

function shippedTemplates(contents) {
  return {
    name: templatesModule,
    setup(build) {
      build.onResolve({ filter: new RegExp(`^${templatesModule}$`) }, ({ path }) => ({
        path,
        namespace: templatesModule,
        sideEffects: false,
      }));
      build.onLoad({ filter: /.*/, namespace: templatesModule }, () => ({ contents, loader: 'js' }));
    },
  };
}

/** The solver asks at run time whether it is in Node; in a page it is not, and what only Node has falls out. */
const solverWithoutNode = {
  name: 'solver-without-node',
  setup(build) {
    build.onLoad({ filter: /highs[\\/]build[\\/]highs\.mjs$/ }, ({ path }) => {
      const source = readFileSync(path, 'utf8');
      const asks = /var ENVIRONMENT_IS_NODE=[^;]*;/;
      if (!asks.test(source)) throw new Error('highs asks in other words whether it runs in Node');
      return { contents: source.replace(asks, '').replaceAll('ENVIRONMENT_IS_NODE', 'false'), loader: 'js' };
    });
  },
};

/** The writer of workbooks in a page: it reads no files, no CSV and no passwords there, so what does that is left out. */
const writerWithoutNode = {
  name: 'writer-without-node',
  setup(build) {
    const absent = { filter: /.*/, namespace: 'absent' };
    build.onResolve({ filter: /^(fs|crypto|util|fast-csv)$/ }, ({ path }) => ({ path, namespace: 'absent' }));
    build.onLoad(absent, () => ({ contents: 'module.exports = {};', loader: 'js' }));
    build.onResolve({ filter: /^(events|buffer)$/ }, ({ path, resolveDir }) =>
      build.resolve(`${path}/`, { kind: 'require-call', resolveDir }),
    );
  },
};

/** Fails the build where the library for pages would ask for something of Node. */
function refuseNode({ outputs }) {
  for (const [file, { imports }] of Object.entries(outputs)) {
    const asked = imports.filter(({ external }) => external).map(({ path }) => path);
    const called = readFileSync(join(top, file), 'utf8').match(
      /\brequire\(["'][^"']+["']\)|["']node:[a-z/]+["']/g,
    );
    const found = [...asked, ...(called ?? [])];
    if (found.length > 0) throw new Error(`${file} asks for ${found.join(', ')}, which no browser has`);
  }
}

/** The faces' declarations, each in one file beside its code. */
function writeDeclarations() {
  const index = declarationsOf(join(top, 'library', 'index.ts'));
  const names = new Set(index.items.map(({ name }) => name));
  const node = declarationsOf(join(top, 'library', 'node.ts'), { names, module: './index.js' });
  writeFileSync(join(top, 'dist', 'index.d.ts'), rolledUp(index));
  writeFileSync(join(top, 'dist', 'node.d.ts'), rolledUp(node));
}

async function build() {
  const { build: bundle } = await import('esbuild');
  rmSync(join(top, 'dist'), { recursive: true, force: true });
  mkdirSync(join(top, 'dist'));
  const { version } = JSON.parse(readFileSync(join(top, 'package.json'), 'utf8'));
  const readSheetFiles = await sheetReader(bundle);
  const templates = builtTemplates(join(top, 'templates'), readSheetFiles);
  const modules = {
    absWorkingDir: top,
    bundle: true,
    splitting: true,
    format: 'esm',
    minify: true,
    metafile: true,
    legalComments: 'none',
    logLevel: 'warning',
    define: { SENNIT_VERSION: JSON.stringify(version) },
    plugins: [shippedTemplates(templates)],
    // Its parts, and not its ready-made file: that holds sixty packages without their licences, and twice the code.
    alias: { exceljs: './node_modules/exceljs/lib/exceljs.bare.js' },
  };
  const result = await bundle({
    ...modules,
    entryPoints: { sennit: 'cli/main.ts', index: 'library/index.ts', node: 'library/node.ts' },
    outdir: 'dist',
    platform: 'node',
    target: 'node20',
    // Bundled CommonJS packages still ask for require and their own file name.
    banner: {
      js: "import{createRequire as __r}from'node:module';import{fileURLToPath as __f}from'node:url';const require=__r(import.meta.url),__filename=__f(import.meta.url);",
    },
  });
  // The library in a page: esbuild refuses what is of Node, as nothing of it is there.
  const browser = await bundle({
    ...modules,
    entryPoints: { index: 'library/index.ts' },
    outdir: 'dist/browser',
    platform: 'browser',
    target: 'es2022',
    charset: 'utf8',
    inject: ['build/page/globals.mjs'],
    plugins: [...modules.plugins, solverWithoutNode, writerWithoutNode],
  });
  refuseNode(browser.metafile);
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
  for (const folder of ['sheets', 'oneoff', 'month']) {
    const files = new Map(sheetTexts(join(top, 'templates'), folder));
    writeFileSync(join(top, 'dist', `${folder}.json`), JSON.stringify(readSheetFiles(files)));
  }
  writeDeclarations();
  writeFileSync(
    join(top, 'dist', 'THIRD-PARTY-LICENCES.txt'),
    thirdPartyLicences(
      top,
      Object.keys({ ...result.metafile.inputs, ...browser.metafile.inputs, ...page.metafile.inputs }),
    ),
  );
}

if (!process.argv.includes('--if-stale') || isStale()) await build();
