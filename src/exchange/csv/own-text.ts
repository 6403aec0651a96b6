import { knownHeading } from './columns.ts';

/**
 * Beginnings that spreadsheets take for a formula, narrow and full width, and what they skip before one: spaces, marks
 * of quotation, and marks without width or that turn the direction of writing. Source: the list in OWASP's page on CSV
 * injection, from memory; the marks: Unicode, general category Cf.
 */
const SKIPPED = `['"\\s\\u00ad\\u061c\\u180e\\u200b-\\u200f\\u202a-\\u202e\\u2060-\\u206f\\ufeff]*`;
const BEGINS = '[=+\\-@\\uff1d\\uff0b\\uff0d\\uff20';
const NUMBER = '[+-]?\\d+([.,]\\d+)?';
/** What parts cells, in one locale or another. */
const PARTS = '[;,|\\t\\n]';
const FORMULA = new RegExp(`^${SKIPPED}${BEGINS}\\t\\n]`);
const SHIELDED = new RegExp(`^'${SKIPPED}${BEGINS}\\t\\n]`);
const INSIDE = new RegExp(`(${PARTS})(?=${SKIPPED}${BEGINS}])(?! *${NUMBER} *(\\1|$))`, 'g');
const SHIELDED_INSIDE = new RegExp(`(${PARTS})'(?=${SKIPPED}${BEGINS}])`, 'g');
const PLAIN_NUMBER = new RegExp(`^${NUMBER}$`);
const OWN = 'own:';

/**
 * A text as it is written to a file: an apostrophe goes before what a spreadsheet would run, wherever one that parts
 * cells by another mark than ours would see a cell begin. Numbers stay numbers.
 */
export function shielded(text: string): string {
  const written = text.replace(/\r\n?/g, '\n').replace(INSIDE, "$1'");
  return FORMULA.test(written) && !PLAIN_NUMBER.test(written) ? `'${written}` : written;
}

/** A text as it was before it was shielded. */
export function unshielded(text: string): string {
  return (SHIELDED.test(text) ? text.slice(1) : text).replace(SHIELDED_INSIDE, '$1');
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
