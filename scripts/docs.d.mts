/** The folder of the built site. */
export const DOCS: string;
/** Readings that examples name, and where they come from. */
export const READINGS: Readonly<Record<string, string>>;
/** Names of the pages that are written by hand. */
export const WRITTEN: readonly string[];
export function buildDocs(): Promise<string[]>;
