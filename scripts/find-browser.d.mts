export function findBrowser(): string;
export const BROWSER_ARGS: string[];

/** The lightest Chromium that draws pages: without windows, sound and microphone, where there is such a one. */
export function findHeadless(): string;
