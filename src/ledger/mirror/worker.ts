// Does the long work of a second copy away from the page's own thread.
import '../../../shared/without-code-generation.ts';
import { serveRequests } from '../../workers/server.ts';
import { connect } from '../database.ts';
import { StorageError } from '../errors.ts';
import { readPortions } from '../read-library.ts';
import type { CopyRequest } from './copying.ts';
import { openBrowserMirror, type Mirror } from './mirror.ts';

/** @throws StorageError when the database is a newer program's, or not the device's: cleared away, and the copy is what is left. */
async function copyFrom(name: string, deviceId: string, changed: Parameters<Mirror['copy']>[1]) {
  const { db, run, writable, close } = await connect(
    name,
    () => undefined,
    () => undefined,
  );
  try {
    if (!writable) throw new StorageError('newer');
    if ((await run(() => db.device.get('device')))?.id !== deviceId) throw new StorageError('gone');
    const mirror = await openBrowserMirror();
    await mirror?.copy({ deviceId, portions: (wanted) => run(() => readPortions(db, wanted)) }, changed);
  } finally {
    close();
  }
}

serveRequests(async (request: CopyRequest) => {
  const { deviceId } = request;
  if (request.wish === 'copy') return copyFrom(request.name, deviceId, request.changed);
  return (await openBrowserMirror())?.compact(deviceId);
});
