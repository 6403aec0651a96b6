import type { Photo } from '../../shared/photo.ts';

// Sources: JPEG, ITU-T T.81, annex B; Exif, CIPA DC-008; PNG, ISO/IEC 15948, clause 11; WebP container specification;
// all from memory.

type Bytes = Uint8Array;

function joined(parts: readonly Bytes[]): Bytes {
  const all = new Uint8Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}

const textAt = (bytes: Bytes, at: number, length: number) =>
  String.fromCharCode(...bytes.subarray(at, at + length));

const ORIENTATION = 0x0112;
const EXIF = 'Exif\0\0';

/** Which way up a picture is meant, 2 to 8; undefined for upright, or where it is not told. */
function orientationIn(segment: Bytes): number | undefined {
  const view = new DataView(segment.buffer, segment.byteOffset, segment.length);
  const tiff = 4 + EXIF.length;
  if (segment.length < tiff + 10 || textAt(segment, 4, EXIF.length) !== EXIF) return undefined;
  const little = textAt(segment, tiff, 2) === 'II';
  const directory = tiff + view.getUint32(tiff + 4, little);
  if (directory + 2 > segment.length) return undefined;
  const entries = view.getUint16(directory, little);
  for (let i = 0; i < entries; i++) {
    const at = directory + 2 + 12 * i;
    if (at + 12 > segment.length) return undefined;
    if (view.getUint16(at, little) !== ORIENTATION) continue;
    const value = view.getUint16(at + 8, little);
    return value >= 2 && value <= 8 ? value : undefined;
  }
  return undefined;
}

/** A segment that tells which way up, and nothing else. */
function orientationSegment(orientation: number): Bytes {
  const tiff = [
    0x4d,
    0x4d,
    0,
    42,
    0,
    0,
    0,
    8,
    0,
    1,
    1,
    0x12,
    0,
    3,
    0,
    0,
    0,
    1,
    0,
    orientation,
    0,
    0,
    0,
    0,
    0,
    0,
  ];
  const content = [...EXIF].map((letter) => letter.charCodeAt(0)).concat(tiff);
  return Uint8Array.of(0xff, 0xe1, 0, content.length + 2, ...content);
}

const [SOI_BYTES, SOS, COMMENT, APP0, APP1, APP2, APP14, APP15] = [
  2, 0xda, 0xfe, 0xe0, 0xe1, 0xe2, 0xee, 0xef,
];
/** Applications' segments without which a picture looks otherwise: its density, its colours, how these are coded. */
const NEEDED = [APP0, APP2, APP14];

function bareJpeg(bytes: Bytes): Bytes {
  const parts: Bytes[] = [bytes.subarray(0, SOI_BYTES)];
  let orientation: number | undefined;
  let at = SOI_BYTES;
  while (at + 4 <= bytes.length && bytes[at] === 0xff && bytes[at + 1] !== SOS) {
    const marker = bytes[at + 1] ?? 0;
    const end = at + 2 + ((bytes[at + 2] ?? 0) << 8) + (bytes[at + 3] ?? 0);
    const segment = bytes.subarray(at, end);
    if (marker === APP1) orientation ??= orientationIn(segment);
    const isApart = (marker >= APP0 && marker <= APP15 && !NEEDED.includes(marker)) || marker === COMMENT;
    if (!isApart) parts.push(segment);
    at = end;
  }
  const upright = orientation === undefined ? [] : [orientationSegment(orientation)];
  return joined([...parts.slice(0, 1), ...upright, ...parts.slice(1), bytes.subarray(at)]);
}

const PNG_SIGNATURE_BYTES = 8;
/** Chunks of a PNG that tell of the picture rather than make it. */
const PNG_APART = ['eXIf', 'tEXt', 'zTXt', 'iTXt', 'tIME'];

function barePng(bytes: Bytes): Bytes {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
  const parts: Bytes[] = [bytes.subarray(0, PNG_SIGNATURE_BYTES)];
  let at = PNG_SIGNATURE_BYTES;
  while (at + 12 <= bytes.length) {
    const end = at + 12 + view.getUint32(at);
    if (!PNG_APART.includes(textAt(bytes, at + 4, 4))) parts.push(bytes.subarray(at, end));
    at = end;
  }
  return joined([...parts, bytes.subarray(at)]);
}

const RIFF_HEADER_BYTES = 12;
const WEBP_APART = ['EXIF', 'XMP '];
/** Flags in a WebP's header that say that such chunks follow. */
const WEBP_APART_FLAGS = 0x0c;

function bareWebp(bytes: Bytes): Bytes {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
  const parts: Bytes[] = [bytes.slice(0, RIFF_HEADER_BYTES)];
  let at = RIFF_HEADER_BYTES;
  while (at + 8 <= bytes.length) {
    const size = view.getUint32(at + 4, true);
    const end = at + 8 + size + (size % 2);
    const name = textAt(bytes, at, 4);
    const chunk = bytes.slice(at, end);
    if (name === 'VP8X' && chunk.length > 8) chunk[8] = (chunk[8] ?? 0) & ~WEBP_APART_FLAGS;
    if (!WEBP_APART.includes(name)) parts.push(chunk);
    at = end;
  }
  const bare = joined([...parts, bytes.subarray(at)]);
  new DataView(bare.buffer).setUint32(4, bare.length - 8, true);
  return bare;
}

const BARE = { 'image/jpeg': bareJpeg, 'image/png': barePng, 'image/webp': bareWebp } as const;

/**
 * A photograph without what the camera wrote beside it: where and when it was taken, by which device, a small picture of
 * the whole. Which way up it is meant stays, and so do its colours; the picture itself is not coded anew.
 */
export const withoutMetadata = (bytes: Bytes, mediaType: Photo['mediaType']): Bytes => BARE[mediaType](bytes);
