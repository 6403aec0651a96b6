import type { Id } from '../../../shared/ids.ts';
import type { CompactResponse } from './compact-worker.ts';
import type { Mirror } from './mirror.ts';

/** A worker, as far as compacting needs one. */
export interface CompactWorker {
  onmessage: ((event: MessageEvent<CompactResponse>) => void) | null;
  onerror: ((event: ErrorEvent) => void) | null;
  postMessage(deviceId: Id): void;
  terminate(): void;
}

/** What the worker answers; undefined where it does not start. */
async function answerOf(worker: CompactWorker, deviceId: Id): Promise<CompactResponse | undefined> {
  try {
    return await new Promise((resolve) => {
      worker.onmessage = ({ data }) => resolve(data);
      worker.onerror = () => resolve(undefined);
      worker.postMessage(deviceId);
    });
  } finally {
    worker.terminate();
  }
}

/**
 * A mirror whose small pieces are put together by a worker, and here where none starts. Pieces that come meanwhile are
 * no concern of it: each has the name of its content, and only those are retired that were put together.
 */
export function compactingIn(start: () => CompactWorker, mirror: Mirror): Mirror {
  return {
    ...mirror,
    async compact(deviceId) {
      const answer = await answerOf(start(), deviceId);
      if (!answer) await mirror.compact(deviceId);
      else if ('trouble' in answer) throw new Error(answer.trouble);
    },
  };
}
