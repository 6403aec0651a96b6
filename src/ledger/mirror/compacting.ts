import { askOnce, type WorkerLike } from '../../workers/client.ts';
import type { Mirror } from './mirror.ts';

/**
 * A mirror whose small pieces are put together by a worker, and here where none starts. Pieces that come meanwhile are
 * no concern of it: each has the name of its content, and only those are retired that were put together.
 */
export const compactingIn = (start: () => WorkerLike, mirror: Mirror): Mirror => ({
  ...mirror,
  compact: (deviceId) => askOnce(start, deviceId, {}, () => mirror.compact(deviceId)),
});
