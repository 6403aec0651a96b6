import type { PassFacts } from '../../shared/pass.ts';
import type { Reed } from '../../shared/reed.ts';
import type { Trial } from '../../shared/trial.ts';
import { numberText, type Writing } from '../../src/words/format.ts';
import { hrefOf, type BenchRoute } from '../frame/routes.ts';
import type { PassMark } from '../pass-strip/pass-strip.ts';

const DAY_MS = 86_400_000;
/** A clip shorter than this is not written on the strip, mm. */
const LEAST_CLIP_MM = 0.04;

interface Strip {
  readonly reed: Reed;
  readonly passes: readonly PassFacts[];
  readonly trials: readonly Trial[];
  readonly question: BenchRoute['question'];
  /** Place of the pass that is shown, and of the one it is compared with. */
  readonly shown: number;
  readonly earlier: number;
  readonly writing: Writing;
}

function clipMm(pass: PassFacts, before: PassFacts | undefined): number {
  if (pass.clipMm !== undefined) return pass.clipMm;
  if (before?.overallLengthMm === undefined || pass.overallLengthMm === undefined) return 0;
  return before.overallLengthMm - pass.overallLengthMm;
}

/** The passes of a reed as they stand on the strip. */
export function passMarks({ reed, passes, trials, question, shown, earlier, writing }: Strip): PassMark[] {
  const first = passes.find(({ takenAt }) => takenAt)?.takenAt;
  return passes.map((pass, i) => {
    const clip = clipMm(pass, passes[i - 1]);
    const day =
      first && pass.takenAt
        ? Math.round((Date.parse(pass.takenAt) - Date.parse(first)) / DAY_MS) + 1
        : undefined;
    const role = i === shown ? 'after' : i === earlier && question === 'taken' ? 'before' : undefined;
    return {
      index: pass.index,
      href: hrefOf({ at: 'bench', reedId: reed.id, question, pass: pass.index }),
      facts: [day && `day ${day}`, clip > LEAST_CLIP_MM && `clip ${numberText(clip, 1, writing)}`]
        .filter(Boolean)
        .join(', '),
      done: (pass.scrape?.places ?? []).map(({ zone }) => zone).join(', ') || (pass.note ?? ''),
      heard: trials.find(({ afterPass }) => afterPass === pass.index)?.words ?? '',
      clipped: clip > LEAST_CLIP_MM,
      ...(role && { role }),
    };
  });
}
