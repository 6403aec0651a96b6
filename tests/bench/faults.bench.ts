import { findFaults } from '../../src/faults/find-faults.ts';
import { readSample } from '../read-sample.ts';
import { pacedMs } from './clock.ts';

/** Time to look for faults in four full passes of both blades. */
export default async function run() {
  const passes = readSample('plain').passes.map((pass) => ({ ...pass, controls: [] }));
  return Promise.resolve([
    {
      name: 'faults of four full passes',
      value: pacedMs(() => findFaults(passes), 9),
      unit: 'ms',
      limit: 250,
    },
  ]);
}
