import type { Pass } from '../../shared/pass.ts';
import type { LibraryStore } from './library-store.ts';

/** The gauge with which a new pass is read: the one kept last. */
export function gaugeInUse({ snapshot }: LibraryStore): Pick<Pass, 'gaugeId' | 'gaugeStepMm'> {
  const gauge = snapshot.live.gauge.at(-1);
  return gauge ? { gaugeId: gauge.id, gaugeStepMm: gauge.stepMm } : {};
}
