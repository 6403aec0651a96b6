// Does the long work of a second copy away from the page's own thread.
import '../../../shared/without-code-generation.ts';
import { serveRequests } from '../../workers/server.ts';
import { connect } from '../database.ts';
import { StorageError } from '../errors.ts';
import { readPortions } from '../read-library.ts';
import type { CopyRequest, CopyWish } from './copying.ts';
import { openBrowserMirror } from './mirror.ts';

/** @throws StorageError when the database is a newer program's, or not the device's: cleared away, and the copy is what is left. */
async function copyFrom(deviceId: string, { name, changed, count }: CopyWish) {
  const { db, run, writable, close } = await connect(
    name,
    () => undefined,
    () => undefined,
  );
  try {
    if (!writable) throw new StorageError('newer');
    if ((await run(() => db.device.get('device')))?.id !== deviceId) throw new StorageError('gone');
    const mirror = await openBrowserMirror();
    const portions = async (wanted: CopyWish['changed']) => ({
      ...(await run(() => readPortions(db, wanted))),
      count,
    });
    await mirror?.copy({ deviceId, portions }, changed);
  } finally {
    close();
  }
}

serveRequests(async (request: CopyRequest) => {
  const { deviceId } = request;
  if (request.wish === 'copy') return copyFrom(deviceId, request);
  return (await openBrowserMirror())?.compact(deviceId);
});
