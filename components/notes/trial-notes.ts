import type { Trial } from '../../shared/trial.ts';
import type { NumberFormat } from '../../src/words/format.ts';
import { plainText } from '../../src/words/format.ts';

/** A note and, where it is told, how far from it: cents. */
export interface NoteCents {
  readonly note: string;
  readonly cents?: number;
}

/** A note with or without its cents, as `C6 −10`; a sentence where it is neither. */
export function readNote(text: string): NoteCents | string {
  const match = /^([A-Ga-g])([#b]?\d?)(?:\s*([+\u2212-]?\d+(?:[.,]\d+)?))?$/.exec(text.trim());
  if (!match) return `“${text}”: write a note and its cents, as C5 +4.`;
  const note = match[1]!.toUpperCase() + match[2]!;
  if (match[3] === undefined) return { note };
  const cents = centsIn(match[3]);
  return Math.abs(cents) > 200 ? `“${text}”: more than 200 cents is another note.` : { note, cents };
}

const centsIn = (text: string) => Number(text.replace(',', '.').replace('\u2212', '-'));

/** One line of notes and their cents, as `A4 +2, D5 -3`; a sentence where it is none. */
export function readNotes(text: string): Trial['pitchCents'] | string {
  const parts = text
    .split(/[,;]\s+|\s*;\s*|,(?=\s*[A-Ga-g])/)
    .map((part) => part.trim())
    .filter(Boolean);
  const notes: Trial['pitchCents'] = [];
  for (const part of parts) {
    const read = readNote(part);
    if (typeof read === 'string' && read.includes('another note')) return read;
    if (typeof read === 'string' || read.cents === undefined)
      return `“${part}”: write a note and its cents, as A4 +2, and commas between them.`;
    notes.push({ note: read.note, cents: read.cents });
  }
  return notes;
}

/** A note and its cents as they are typed. */
export function noteText(
  { note, cents }: Partial<NoteCents> | { note?: string | undefined; cents?: number | undefined },
  writing: Pick<NumberFormat, 'decimal'>,
): string {
  if (cents === undefined) return note ?? '';
  const sign = cents < 0 ? '\u2212' : '+';
  return `${note ?? ''} ${sign}${plainText(Math.abs(cents), writing)}`.trim();
}
