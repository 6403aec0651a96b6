/** The content security policy as a meta element carries it. */
export const PAGE_POLICY: string;
/** Headers of everything that is served. */
export const HEADERS: Readonly<Record<string, string>>;
/** How long a built file may be kept by a browser. */
export function cacheControl(path: string): string;
