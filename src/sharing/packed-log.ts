import { deflateSync, inflateSync } from 'fflate';
import * as z from 'zod';
import type { Act } from '../../shared/round.ts';
import { parseBoundedJson } from '../ledger/bounded-json.ts';
import { canonicalJson } from '../ledger/canonical.ts';
import { fromBase64, toBase64 } from './base64.ts';

/** Fewer acts go as they are. Our own number. */
const PACKED_FROM = 20;
/** 1,000 acts have a third of it. Our own number. */
const MAX_BYTES = 2e6;
/** An act has a station in it. */
const MAX_DEPTH = 8;

const packedSchema = z.strictObject({ bytes: z.int().min(1).max(MAX_BYTES), packed: z.string() });

/** Some acts of one round as they are carried: a tenth of their text where there are many. Source: RFC 1951 (deflate). */
export function packLog(acts: readonly Act[]): unknown {
  if (acts.length < PACKED_FROM) return { acts };
  const text = new TextEncoder().encode(canonicalJson(acts));
  return { bytes: text.length, packed: toBase64(deflateSync(text, { level: 9 })) };
}

/** A record of acts with its acts one by one; whatever else it is comes back as it is, for the schema to judge. */
export function unpackLog(record: unknown): unknown {
  const { success, data } = packedSchema.safeParse(record);
  if (!success) return record;
  try {
    const text = inflateSync(fromBase64(data.packed), { out: new Uint8Array(data.bytes) });
    return {
      acts: parseBoundedJson(new TextDecoder().decode(text), { maxChars: MAX_BYTES, maxDepth: MAX_DEPTH }),
    };
  } catch {
    return record;
  }
}
