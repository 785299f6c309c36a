import fc from 'fast-check';
import { strFromU8, strToU8, unzipSync } from 'fflate';
import { expect, test } from 'vitest';
import { ArchiveWriter } from '../../engine/archive/archiveWriter.ts';

function archived(fill: (archive: ArchiveWriter) => void, date = '2026-03-02'): Uint8Array {
  const archive = new ArchiveWriter(date);
  fill(archive);
  return archive.bytes();
}

test('whatever goes in comes out, however it is cut into pieces', () => {
  const texts = fc.array(fc.string({ unit: 'grapheme', maxLength: 40 }), { maxLength: 20 });
  const entries = fc.uniqueArray(fc.tuple(fc.stringMatching(/^[a-zé]{1,8}\.xml$/), texts), {
    maxLength: 5,
    selector: ([name]) => name,
  });
  fc.assert(
    fc.property(entries, fc.integer({ min: 1, max: 30_000 }), (given, times) => {
      const bytes = archived((archive) => {
        for (const [name, pieces] of given)
          archive.add(
            name,
            (function* () {
              for (let time = 0; time < times; time += 1) yield* pieces;
            })(),
          );
      });
      const found = Object.entries(unzipSync(bytes)).map(([name, part]) => [name, strFromU8(part)]);
      expect(found).toEqual(given.map(([name, pieces]) => [name, pieces.join('').repeat(times)]));
    }),
    { numRuns: 30 },
  );
});

test('an entry that is stored can be read off where OpenDocument looks for it', () => {
  const bytes = archived((archive) => archive.add('mimetype', 'application/x', 'stored'));
  // ODF 1.3 part 2, 3.3: the name at byte 30, the type at byte 38, and nothing between them.
  expect(strFromU8(bytes.slice(30, 51))).toBe('mimetypeapplication/x');
  // APPNOTE.TXT 4.4.4: no flag says that sizes come later; 4.4.8 and 4.4.9: they stand here.
  const view = new DataView(bytes.buffer);
  expect([view.getUint16(6, true), view.getUint32(18, true), view.getUint32(22, true)]).toEqual([0, 13, 13]);
});

test('bytes go in as they are, and nothing is an archive too', () => {
  const bytes = archived((archive) => archive.add('picture.png', new Uint8Array([0, 255, 128])));
  expect(unzipSync(bytes)['picture.png']).toEqual(new Uint8Array([0, 255, 128]));
  expect(unzipSync(archived(() => {}))).toEqual({});
});

test('names in other letters are told to be so', () => {
  const bytes = archived((archive) => archive.add('größe.xml', '<a/>'));
  // APPNOTE.TXT 4.4.4, bit 11: the name is UTF-8.
  expect(new DataView(bytes.buffer).getUint16(6, true)).toBe(1 << 11);
  expect(unzipSync(bytes)).toEqual({ 'größe.xml': strToU8('<a/>') });
});
