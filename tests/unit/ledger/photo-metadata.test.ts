import { crc32 } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { withoutMetadata } from '../../../src/ledger/photo-metadata.ts';
import { openTestLedger, reedDraft } from './open-test-ledger.ts';

const ascii = (text: string) => [...text].map((letter) => letter.charCodeAt(0));
const be16 = (value: number) => [value >> 8, value & 255];
const has = (bytes: Uint8Array, text: string) => Buffer.from(bytes).includes(text);

const segment = (marker: number, content: readonly number[]) => [
  0xff,
  marker,
  ...be16(content.length + 2),
  ...content,
];
/** An Exif directory with the orientation, and the words of a place behind it. Byte order: the maker's or Intel's. */
function exif(orientation: number, little: boolean): number[] {
  const short = (value: number) => (little ? [value & 255, value >> 8] : be16(value));
  const long = (value: number) => (little ? [...short(value), 0, 0] : [0, 0, ...short(value)]);
  const head = [...ascii(little ? 'II' : 'MM'), ...short(42), ...long(8)];
  const entry = [...short(0x0112), ...short(3), ...long(1), ...short(orientation), 0, 0];
  return [...ascii('Exif\0\0'), ...head, ...short(1), ...entry, ...long(0), ...ascii('GPS 1.23 N')];
}
const SCAN = [0xff, 0xda, 0, 2, 1, 2, 0xff, 0, 0xe1, 0xff, 0xd9];
const jpeg = (...segments: readonly number[][]) => Uint8Array.from([0xff, 0xd8, ...segments.flat(), ...SCAN]);

describe('a photograph', () => {
  it.each([
    [6, true],
    [3, false],
  ])(
    'as JPEG loses its place and keeps which way up it is (%i, little end first: %s)',
    (orientation, little) => {
      const needed = [
        segment(0xe0, ascii('JFIF\0')),
        segment(0xe2, ascii('ICC_PROFILE\0')),
        segment(0xdb, [1, 2, 3]),
      ];
      const bytes = jpeg(
        ...needed.slice(0, 1),
        segment(0xe1, exif(orientation, little)),
        segment(0xe1, ascii('http://ns.adobe.com/xap/1.0/\0 a place')),
        segment(0xed, ascii('Photoshop 3.0 a town')),
        segment(0xfe, ascii('a comment')),
        ...needed.slice(1),
      );
      const bare = withoutMetadata(bytes, 'image/jpeg');
      for (const word of ['GPS', 'adobe', 'town', 'comment']) expect(has(bare, word), word).toBe(false);
      for (const part of needed) expect(Buffer.from(bare).includes(Buffer.from(part))).toBe(true);
      expect([...bare.slice(-SCAN.length)]).toEqual(SCAN);
      // Exif, CIPA DC-008: tag 0x0112, type 3 (short), one value.
      expect(Buffer.from(bare).includes(Buffer.from([0x01, 0x12, 0, 3, 0, 0, 0, 1, 0, orientation]))).toBe(
        true,
      );
      expect(withoutMetadata(bare, 'image/jpeg')).toEqual(bare);
    },
  );

  it('as JPEG that is upright has nothing added, and one cut off is not made longer', () => {
    const plain = jpeg(segment(0xe0, ascii('JFIF\0')));
    expect(withoutMetadata(plain, 'image/jpeg')).toEqual(plain);
    expect(withoutMetadata(jpeg(segment(0xe1, exif(1, true))), 'image/jpeg')).toEqual(jpeg());
    const bytes = jpeg(segment(0xe1, exif(6, true)));
    for (let length = 3; length < bytes.length; length++)
      expect(() => withoutMetadata(bytes.slice(0, length), 'image/jpeg')).not.toThrow();
  });

  it('as PNG and WebP loses what is told of it, and stays whole', () => {
    const chunk = (name: string, content: readonly number[]) => {
      const named = [...ascii(name), ...content];
      const sum = crc32(Buffer.from(named));
      return [
        ...[24, 16, 8, 0].map((shift) => (content.length >> shift) & 255),
        ...named,
        ...[24, 16, 8, 0].map((shift) => (sum >>> shift) & 255),
      ];
    };
    const signature = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];
    const sound = [...chunk('IHDR', [1, 2]), ...chunk('IDAT', [3, 4]), ...chunk('IEND', [])];
    const told = ['eXIf', 'tEXt', 'iTXt', 'zTXt', 'tIME'].flatMap((name) => chunk(name, ascii('a place')));
    const png = Uint8Array.from([...signature, ...sound.slice(0, 14), ...told, ...sound.slice(14)]);
    expect([...withoutMetadata(png, 'image/png')]).toEqual([...signature, ...sound]);

    const riff = (...chunks: readonly number[][]) => {
      const all = [...ascii('WEBP'), ...chunks.flat()];
      return Uint8Array.from([...ascii('RIFF'), all.length & 255, all.length >> 8, 0, 0, ...all]);
    };
    const part = (name: string, content: readonly number[]) => [
      ...ascii(name),
      content.length,
      0,
      0,
      0,
      ...content,
      ...(content.length % 2 ? [0] : []),
    ];
    const before = riff(
      part('VP8X', [0x1c, 0, 0, 0]),
      part('VP8 ', [1, 2, 3]),
      part('EXIF', ascii('a place')),
      part('XMP ', ascii('a town')),
    );
    expect(withoutMetadata(before, 'image/webp')).toEqual(
      riff(part('VP8X', [0x10, 0, 0, 0]), part('VP8 ', [1, 2, 3])),
    );
  });

  it('is kept, and goes into every copy, without its place', async () => {
    const ledger = await openTestLedger();
    const reed = (await ledger.keep([reedDraft('K-1')], 'reed')).steps[0]!.after;
    await ledger.keepPhoto({ of: reed.id }, jpeg(segment(0xe1, exif(6, true))), 'photograph');
    const [picture] = (await ledger.readWhole()).attachments;
    expect(has(picture!.bytes, 'GPS')).toBe(false);
    const [photo] = await ledger.documents('photo');
    expect(photo).toMatchObject({ bytes: picture!.bytes.length, sha256: picture!.sha256 });
    ledger.close();
  });
});
