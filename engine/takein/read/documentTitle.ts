import { readXml } from './readXml.ts';

/** The title in the properties of a document (Dublin Core, in both formats); blank where there is none. */
export function documentTitle(bytes: Uint8Array | undefined): string {
  let title = '';
  let within = false;
  if (bytes === undefined) return title;
  readXml(bytes, {
    open: (name) => {
      within = name === 'dc:title';
    },
    text: (part) => {
      if (within) title += part;
    },
    close: () => {
      within = false;
    },
  });
  return title.trim();
}
