import { reference, warmReferenceUp } from './pace.ts';

/** Names of the marks in a browser's trace between which a page's thread is at something. */
export type Stretch = readonly [begun: string, done: string];

export const WORK: Stretch = ['begun', 'done'];
export const REFERENCE: Stretch = ['reference begun', 'reference done'];

function referenceMarked(): void {
  performance.mark(REFERENCE[0]);
  reference();
  performance.mark(REFERENCE[1]);
}

/** Marks the reference before the first of a page's works. */
export function startMarking(): void {
  warmReferenceUp();
  referenceMarked();
}

/** Marks a page's work, and the reference after it. */
export async function markWork(work: () => void | Promise<void>): Promise<void> {
  performance.mark(WORK[0]);
  await work();
  performance.mark(WORK[1]);
  referenceMarked();
}
