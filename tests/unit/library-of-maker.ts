import type { Pass } from '../../shared/pass.ts';
import type { Reed } from '../../shared/reed.ts';
import type { FitReading } from '../../src/surface/reed-model.ts';
import { scenarioReed } from '../scenario-reed.ts';

const example = scenarioReed('M-142');

/** An invented reed of a library. */
export const libraryReed = (id: string): Reed => ({
  ...{
    kind: 'reed',
    id,
    label: id,
    styleId: example.reed.styleId,
    state: example.reed.state,
    versions: {},
    tags: [],
  },
  formatVersion: 1,
  ...{ createdAt: '2026-01-01T00:00:00Z', updatedAt: '2026-01-01T00:00:00Z' },
});

/** Its first pass. */
export function libraryPass(reedId: string, readings: readonly FitReading[]): Pass {
  const { day } = example.passes[0]! as unknown as { day: string };
  return {
    ...{ ...example.passes[0]!, id: `${reedId} 0`, reedId, index: 0, overallLengthMm: 70, day },
    readings: readings.map(({ blade, fromTipMm, across, thicknessMm }) => ({
      ...{ blade, fromTipMm, across, thicknessMm: Math.round(thicknessMm * 1e4) / 1e4 },
      ...{ repeat: 0, flag: 'ok', role: 'station' },
    })),
  } as Pass;
}
