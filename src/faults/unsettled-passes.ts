import type { Fault, PassFaults } from './fault.ts';

const LABEL_FAULTS: readonly Fault['kind'][] = ['swapped', 'mirrored', 'shifted', 'clip'];

/** Places of the passes that may not lie where they say: set beside others they say nothing of the gauge's noise. */
export function unsettledPasses(found: readonly PassFaults[]): number[] {
  return found.flatMap(({ faults }, pass) =>
    faults.some(({ kind }) => LABEL_FAULTS.includes(kind)) ? [pass] : [],
  );
}
