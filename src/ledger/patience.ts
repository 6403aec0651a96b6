/** How long work reports, rests and is given up. */
export interface ProgressOptions {
  /** Cancels the work: the promise is then rejected with the signal's reason. */
  readonly signal?: AbortSignal;
  /** Called between slices with the share done, 0 to 1. */
  readonly onProgress?: (share: number) => void;
  /** Lets the page breathe between slices. */
  readonly pause?: () => Promise<void>;
}

/** The patience of a part of the work, `length` long of `all`, with so much done `before` it. */
export function within(patience: ProgressOptions, before: number, length: number, all = 1): ProgressOptions {
  return { ...patience, onProgress: (share) => patience.onProgress?.((before + share * length) / all) };
}

/** Between two slices: says how much is done, rests, and ends the work if it was given up. */
export async function rest({ signal, onProgress, pause }: ProgressOptions, share: number): Promise<void> {
  onProgress?.(share);
  await pause?.();
  signal?.throwIfAborted();
}
