import { FormatError } from '../../shared/errors.ts';
import type { DeviceState } from './database.ts';
import type { Holdings } from './merge.ts';

/** A library that was put back has lost fewer changes than this. Our own number, common practice. */
const MOST_LOST = 1e6;

const latest = (numbers: Iterable<number>) => {
  let most = 0;
  for (const number of numbers) most = Math.max(most, number);
  return most;
};

/**
 * The device's counters beyond every change of its own that another library tells of: one that the browser put back by a
 * few changes does not know them, and may not give their numbers a second time.
 *
 * @throws FormatError when it tells of more changes than the device can have made.
 */
export function beyond(device: DeviceState, { documents, acts }: Holdings): DeviceState {
  const writes = latest(documents.map(({ versions }) => versions[device.id] ?? 0));
  const own = acts.filter(({ deviceId }) => deviceId === device.id);
  const seq = latest(own.map((act) => act.seq));
  if (writes > device.writes + MOST_LOST || seq > device.acts + MOST_LOST) {
    const what = 'It tells of changes that this device has never made. Take another copy of the file.';
    throw new FormatError([{ where: 'versions', what }]);
  }
  return { ...device, writes: Math.max(device.writes, writes), acts: Math.max(device.acts, seq) };
}
