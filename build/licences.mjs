// The licences of everything that is bundled, as their terms ask: dist/THIRD-PARTY-LICENCES.txt.
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

const rule = '-'.repeat(78);

/** The folders of the packages that these inputs of a bundle come from; a package in two versions has two. */
function packageFolders(inputs) {
  const folders = new Set();
  for (const input of inputs) {
    const found = /^(.*node_modules\/(?:@[^/]+\/)?[^/]+)\//.exec(input)?.[1];
    if (found !== undefined) folders.add(found);
  }
  return [...folders];
}

const isc = (holders) => `Copyright (c) ${holders}

Permission to use, copy, modify, and/or distribute this software for any purpose with or without fee is hereby
granted, provided that the above copyright notice and this permission notice appear in all copies.

THE SOFTWARE IS PROVIDED "AS IS" AND THE AUTHOR DISCLAIMS ALL WARRANTIES WITH REGARD TO THIS SOFTWARE INCLUDING ALL
IMPLIED WARRANTIES OF MERCHANTABILITY AND FITNESS. IN NO EVENT SHALL THE AUTHOR BE LIABLE FOR ANY SPECIAL, DIRECT,
INDIRECT, OR CONSEQUENTIAL DAMAGES OR ANY DAMAGES WHATSOEVER RESULTING FROM LOSS OF USE, DATA OR PROFITS, WHETHER IN AN
ACTION OF CONTRACT, NEGLIGENCE OR OTHER TORTIOUS ACTION, ARISING OUT OF OR IN CONNECTION WITH THE USE OR PERFORMANCE OF
THIS SOFTWARE.`;

/** A package's own words: its licence and notice files, or else the end of its README, or else the licence it names. */
function wordsOf(folder, { name, license, author }) {
  const named = readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter(
      (each) =>
        each.isFile() &&
        /(^|[\\/])(licen[cs]e|copying|notice)/i.test(join(each.path, each.name).slice(folder.length)),
    )
    .map((each) => join(each.path, each.name))
    .filter((path) => !path.slice(folder.length).includes('node_modules') && !/\.[cm]?[jt]s$/.test(path))
    .sort();
  if (named.length > 0) return named.map((path) => readFileSync(path, 'utf8').trim()).join('\n\n');
  const readme = join(folder, 'README.md');
  const told = existsSync(readme)
    ? /\n(?:#+ *)?License.*\n(?:-+\n)?([\s\S]+)$/i.exec(readFileSync(readme, 'utf8'))?.[1]
    : undefined;
  if (told !== undefined) return told.trim();
  const holder = typeof author === 'string' ? author : author?.name;
  if (license === 'ISC' && holder !== undefined) return isc(`${holder}, and contributors`);
  throw new Error(`No words of a licence are found in ${name}: look for them before it is shipped.`);
}

/** @param {Iterable<string>} inputs files of the bundles, from `top` */
export function thirdPartyLicences(top, inputs) {
  const packages = packageFolders(inputs)
    .map((folder) => {
      const about = JSON.parse(readFileSync(join(top, folder, 'package.json'), 'utf8'));
      return {
        title: `${about.name} ${about.version} (${about.license})`,
        words: wordsOf(join(top, folder), about),
      };
    })
    .sort((one, other) => (one.title < other.title ? -1 : 1));
  return [
    `Others' work in these files, with its licences:\n\n${packages.map(({ title }) => title).join('\n')}\n`,
    ...packages.map(({ title, words }) => `${title}\n\n${words}\n`),
  ].join(`\n${rule}\n\n`);
}
