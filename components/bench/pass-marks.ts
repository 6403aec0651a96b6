import type { PassFacts } from '../../shared/pass.ts';
import type { Reed } from '../../shared/reed.ts';
import type { Trial } from '../../shared/trial.ts';
import { zoneWords } from '../../src/blade/starting-styles.ts';
import { clippedMm, dayOfPass, LEAST_CLIP_MM } from '../../src/rotation/life-strip.ts';
import { numberText, type NumberFormat } from '../../src/words/format.ts';
import { hrefOf, type BenchRoute } from '../frame/routes.ts';
import type { PassMark } from '../pass-strip/pass-strip.ts';

interface Strip {
  readonly reed: Reed;
  readonly passes: readonly PassFacts[];
  readonly trials: readonly Trial[];
  readonly question: BenchRoute['question'];
  /** Place of the pass that is shown, and of the one it is compared with. */
  readonly shown: number;
  readonly earlier: number;
  readonly writing: NumberFormat;
}

/** The passes of a reed as they stand on the strip. */
export function passMarks({ reed, passes, trials, question, shown, earlier, writing }: Strip): PassMark[] {
  return passes.map((pass, i) => {
    const clip = clippedMm(pass, passes[i - 1]);
    const day = dayOfPass(passes, pass);
    const role = i === shown ? 'after' : i === earlier && question === 'taken' ? 'before' : undefined;
    return {
      index: pass.index,
      href: hrefOf({ at: 'bench', reedId: reed.id, question, pass: pass.index }),
      facts: [day && `day ${day}`, clip > LEAST_CLIP_MM && `clip ${numberText(clip, 1, writing)}`]
        .filter(Boolean)
        .join(', '),
      done: (pass.scrape?.places ?? []).map(({ zone }) => zoneWords(zone)).join(', ') || (pass.note ?? ''),
      heard: trials.find(({ afterPass }) => afterPass === pass.index)?.words ?? '',
      clipped: clip > LEAST_CLIP_MM,
      ...(role && { role }),
    };
  });
}
