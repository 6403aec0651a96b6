/** Notes in a finished build what it was made from. */
export function noteSources(folder: string): void;
