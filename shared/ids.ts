import * as z from 'zod';

/** A UUID of version 7 (RFC 9562): sortable by the time it was made, made once on the device, never reused. */
export const idSchema = z.uuidv7();
export type Id = z.infer<typeof idSchema>;

/**
 * Makes a UUIDv7 from a time and ten random bytes.
 *
 * Source: RFC 9562, section 5.7.
 *
 * @param unixMs Milliseconds since 1970, 0 to 2^48 - 1.
 * @param random At least ten random bytes.
 */
export function makeId(unixMs: number, random: Uint8Array): Id {
  const bytes = new Uint8Array(16);
  for (let i = 0; i < 6; i++) bytes[i] = Math.floor(unixMs / 2 ** (8 * (5 - i))) % 256;
  bytes.set(random.subarray(0, 10), 6);
  bytes[6] = 0x70 | (bytes[6]! & 0x0f);
  bytes[8] = 0x80 | (bytes[8]! & 0x3f);
  const hex = Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');
  return hex.replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, '$1-$2-$3-$4-$5');
}
