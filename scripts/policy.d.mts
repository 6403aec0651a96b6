/** The content security policy of a page that asks for nothing, as a meta element carries it. */
export const STRICT_POLICY: string;
/** That of the bench, whose first script adds what may be asked. */
export const PAGE_POLICY: string;
/** Headers of what is served at a path. */
export function headersOf(path: string): Readonly<Record<string, string>>;
/** How long a built file may be kept by a browser. */
export function cacheControl(path: string): string;
