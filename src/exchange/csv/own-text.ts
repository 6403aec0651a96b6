import { knownHeading } from './columns.ts';

/**
 * Beginnings that spreadsheets take for a formula or skip before one, narrow and full width; spaces and apostrophes
 * before them do not help. Source: the list in OWASP's page on CSV injection, from memory.
 */
const FORMULA = /^['\s]*[=+\-@\uff1d\uff0b\uff0d\uff20\t\n]/;
const SHIELDED = /^'['\s]*[=+\-@\uff1d\uff0b\uff0d\uff20\t\n]/;
const PLAIN_NUMBER = /^[+-]?\d+([.,]\d+)?$/;
const OWN = 'own:';

/** A text as it is written to a file: an apostrophe goes before what a spreadsheet would run. Numbers stay numbers. */
export function shielded(text: string): string {
  const written = text.replace(/\r\n?/g, '\n');
  return FORMULA.test(written) && !PLAIN_NUMBER.test(written) ? `'${written}` : written;
}

/** A text as it was before it was shielded. */
export function unshielded(text: string): string {
  return SHIELDED.test(text) ? text.slice(1) : text;
}

/** A maker's own heading, marked where it would otherwise be taken for one of ours, or for none. */
export function ownHeading(name: string): string {
  const taken =
    name.trim() === '' || name.trim() !== name || name.startsWith(OWN) || knownHeading(name) !== undefined;
  return taken ? OWN + name : name;
}

/** The maker's own heading as it was before it was marked; undefined where the file gives none. */
export function fromOwnHeading(heading: string): string | undefined {
  if (heading.startsWith(OWN)) return heading.slice(OWN.length);
  return heading.trim() === '' ? undefined : heading.trim();
}
