import type { AssembledReed, PassContent } from '../reed/assemble.ts';
import { placementBeforeFaults } from '../surface/fit-reed.ts';
import type { NoiseOptions } from '../surface/choose-noise.ts';
import type { JudgedPass } from './explanation.ts';

/** What is known of gauge and hand, and how well the hand finds its places as the passes themselves tell. */
export function faultOptions({ passes, options }: Pick<AssembledReed, 'passes' | 'options'>): NoiseOptions {
  return { ...options, placementMm: placementBeforeFaults(passes, options) };
}

/** A reed's passes with their untouched cane, as faults are looked for in them. */
export function judgedPasses(
  { passes, controls, readTwice }: Pick<AssembledReed, 'passes' | 'controls' | 'readTwice'>,
  documents: readonly Pick<PassContent, 'index' | 'soakMin' | 'scrape'>[],
): JudgedPass[] {
  return passes.map(({ index, overallLengthMm, readings }, i) => {
    const { soakMin, scrape } = documents.find((pass) => pass.index === index) ?? {};
    return {
      index,
      overallLengthMm,
      readings,
      controls: (controls[i] ?? []).map(({ blade, fromTipMm, across, thicknessMm, time }) => ({
        blade,
        fromTipMm,
        across,
        thicknessMm,
        repeats: 1,
        noiseFactor: 1,
        time,
      })),
      readTwice: readTwice[i] ?? [],
      ...(soakMin !== undefined && { soakMin }),
      accident: scrape?.accident !== undefined,
    };
  });
}
