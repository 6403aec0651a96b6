export function findBrowser(): string;
export const BROWSER_ARGS: string[];
