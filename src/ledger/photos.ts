import { InputError } from '../../shared/errors.ts';
import type { Id } from '../../shared/ids.ts';
import { MAX_PHOTO_BYTES, type Photo } from '../../shared/photo.ts';
import type { StoredAttachment } from './database.ts';
import type { NewDraft } from './drafts.ts';
import { withoutMetadata } from './photo-metadata.ts';
import { sha256 } from './sha256.ts';

type MediaType = Photo['mediaType'];

/** First bytes of each kind of picture. Source: the formats' registrations (JPEG, PNG, RIFF/WebP), from memory. */
const SIGNATURES: readonly {
  readonly type: MediaType;
  readonly at: number;
  readonly bytes: readonly number[];
}[] = [
  { type: 'image/jpeg', at: 0, bytes: [0xff, 0xd8, 0xff] },
  { type: 'image/png', at: 0, bytes: [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a] },
  { type: 'image/webp', at: 8, bytes: [0x57, 0x45, 0x42, 0x50] },
];

/** The kind of picture by its first bytes, whatever its name says. */
export function mediaTypeOf(bytes: Uint8Array): MediaType | undefined {
  return SIGNATURES.find((signature) => signature.bytes.every((byte, i) => bytes[signature.at + i] === byte))
    ?.type;
}

/** A photograph ready to be kept: its document, and its bytes under their hash. */
export interface PreparedPhoto {
  readonly draft: Extract<NewDraft, { kind: 'photo' }>;
  readonly attachment: StoredAttachment;
}

export type AboutPhoto = { readonly of: Id } & Pick<Photo, 'takenAt' | 'note'>;

/** @throws InputError when a picture of so many bytes is too large. */
export function checkPhotoSize(bytes: number): void {
  if (bytes <= MAX_PHOTO_BYTES) return;
  const size = (bytes / 1e6).toFixed(1);
  throw new InputError(
    `This picture has ${size} MB; ${MAX_PHOTO_BYTES / 1e6} MB is the most. Save it smaller.`,
  );
}

/**
 * @param about What it shows, and what is known of it.
 * @throws InputError when it is too large or no picture.
 */
export async function preparePhoto(about: AboutPhoto, file: Uint8Array): Promise<PreparedPhoto> {
  checkPhotoSize(file.length);
  const mediaType = mediaTypeOf(file);
  if (!mediaType) throw new InputError('This file is no JPEG, PNG or WebP picture.');
  const bytes = withoutMetadata(file, mediaType);
  const hash = await sha256(bytes);
  return {
    draft: { kind: 'photo', ...about, sha256: hash, bytes: bytes.length, mediaType },
    attachment: { sha256: hash, bytes },
  };
}
