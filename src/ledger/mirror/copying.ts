import { askOnce, type WorkerLike } from '../../workers/client.ts';
import type { Id } from '../../../shared/ids.ts';
import type { Changed } from '../whole-library.ts';
import type { Mirror } from './mirror.ts';

/** What the worker of a second copy is asked to do with the copy of a device. */
export type CopyRequest = { readonly deviceId: Id } & ({ readonly wish: 'compact' } | CopyWish);

/** Writes what has changed in the database of that name, when the device had made so many changes. */
export interface CopyWish {
  readonly wish: 'copy';
  readonly name: string;
  readonly changed: Changed | 'all';
  readonly count: number;
}

/** More documents than this are copied by a worker: it starts more slowly than a few are written. Our own number. */
const FEW = 5;

const isLittle = (changed: Changed | 'all') => changed !== 'all' && changed.ids.length <= FEW;

/**
 * A mirror that has its long work done by a worker, and here where none starts. Pieces that come meanwhile are no
 * concern of it: each has the name of its content, and only those are retired in whose place others were written.
 *
 * @param name The database's, which the worker reads itself.
 */
export const copyingIn = (start: () => WorkerLike, mirror: Mirror, name = 'hundredths'): Mirror => ({
  ...mirror,
  compact: (deviceId) =>
    askOnce(start, { wish: 'compact', deviceId } satisfies CopyRequest, {}, () => mirror.compact(deviceId)),
  async copy(source, changed) {
    const here = () => mirror.copy(source, changed);
    if (isLittle(changed)) return here();
    // A change that is made before the worker reads is not among those told, and is not counted.
    const { count } = await source.portions({ ids: [], rounds: [] });
    const request: CopyRequest = { wish: 'copy', deviceId: source.deviceId, name, changed, count };
    await askOnce(start, request, {}, here);
  },
});
