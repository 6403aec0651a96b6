/** Notes in a finished build what it was made from. */
export function noteSources(folder: string): void;
/** Whether a folder holds the build of the sources as they are. */
export function isUpToDate(folder: string): boolean;
