// The module `sennit:templates` (declared in library/templates.d.ts): the shipped templates, so that the library needs
// no file system. The build puts in what it has read; the tests, which run the sources, read it as they load it.
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

export const templatesModule = 'sennit:templates';

function texts(folder, prefix, wanted) {
  return readdirSync(folder)
    .filter((name) => wanted.test(name))
    .sort()
    .map((name) => [prefix + name, readFileSync(join(folder, name), 'utf8')]);
}

/** Sheet files of a folder of templates/, by path. */
export function sheetTexts(templates, folder) {
  return texts(join(templates, folder), `templates/${folder}/`, /\.yaml$/);
}

function book(templates, name) {
  const folder = join(templates, 'books', name);
  const sheets = readdirSync(folder).includes('sheets')
    ? texts(join(folder, 'sheets'), 'sheets/', /\.yaml$/)
    : [];
  return Object.fromEntries([...texts(folder, '', /\.(csv|yaml)$/), ...sheets]);
}

/**
 * The source of the module.
 *
 * @param sheetsSource an expression that gives the read sheets of a folder
 */
export function templatesSource(templates, sheetsSource) {
  // Parsed from JSON, which is quicker than a literal; what a bundle does not use falls out of it.
  const parsed = (value) => `/* @__PURE__ */ JSON.parse(${JSON.stringify(JSON.stringify(value))})`;
  const books = Object.fromEntries(
    readdirSync(join(templates, 'books')).map((name) => [name, book(templates, name)]),
  );
  return [
    `export const sheets = ${sheetsSource('sheets')};`,
    `export const pieceSheets = ${sheetsSource('oneoff')};`,
    `export const tables = ${parsed(Object.fromEntries(texts(templates, '', /\.csv$/)))};`,
    `export const books = ${parsed(books)};`,
  ].join('\n');
}

/** For the build: sheets that were read already. */
export function builtTemplates(templates, readSheetFiles) {
  return templatesSource(templates, (folder) => {
    const sheets = readSheetFiles(new Map(sheetTexts(templates, folder)));
    return `/* @__PURE__ */ JSON.parse(${JSON.stringify(JSON.stringify(sheets))})`;
  });
}

/** For the tests: a plugin of vite. */
export function templatesForTests(top) {
  const templates = join(top, 'templates');
  const id = `\0${templatesModule}`;
  return {
    name: templatesModule,
    enforce: 'pre',
    resolveId: (asked) => (asked === templatesModule ? id : undefined),
    load: (asked) =>
      asked === id
        ? `import { readSheetFiles } from ${JSON.stringify(join(top, 'engine/sheets/readDefinitions.ts'))};\n${templatesSource(
            templates,
            (folder) => `readSheetFiles(new Map(${JSON.stringify(sheetTexts(templates, folder))}))`,
          )}`
        : undefined,
  };
}
