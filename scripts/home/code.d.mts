/** A text as a code to scan, in the letters of a terminal. */
export function codeOf(text: string): string;
