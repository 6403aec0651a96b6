import { findFaults } from '../../src/faults/find-faults.ts';
import { readSample } from '../read-sample.ts';
import { onceMs } from './clock.ts';

/** Time to look for faults in four full passes of both blades. */
export default async function run() {
  const passes = readSample('plain').passes.map((pass) => ({ ...pass, controls: [] }));
  findFaults(passes);
  const times = Array.from({ length: 5 }, () => onceMs(() => findFaults(passes)));
  return Promise.resolve([
    { name: 'faults of four full passes', value: Math.min(...times), unit: 'ms', limit: 300 },
  ]);
}
