/** Where the parts of a zip archive begin (APPNOTE.TXT 4.3.7, 4.3.12 and 4.3.16): an entry's own head, its line in the directory, and the end of that. */
export const localMark = 0x04034b50;
export const entryMark = 0x02014b50;
export const endMark = 0x06054b50;
