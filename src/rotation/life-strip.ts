import type { PassFacts } from '../../shared/pass.ts';
import type { Trial } from '../../shared/trial.ts';
import type { AirEntry } from '../climate/air-log.ts';
import { knownOverallMm } from '../reed/overall-lengths.ts';
import { countWord, sentence } from '../words/figure-words.ts';

const DAY_MS = 86_400_000;
/** Air that was written down at most so long from a pass is the air it was read in. Common practice, no source. */
const SAME_AIR_MS = DAY_MS / 2;
/** A clip shorter than this is not told: a length is measured to 0.1 mm. */
export const LEAST_CLIP_MM = 0.04;

/** A pass as it stands in the life of its reed. */
export interface LifePass {
  readonly pass: PassFacts;
  /** Counted from the day of the first pass, which is day 1. */
  readonly day?: number;
  /** Cut from the tip since the pass before, mm; 0 where nothing tells. */
  readonly clipMm: number;
  /** As it was entered, else that before less the clip; absent where no length was entered so far. */
  readonly overallMm?: number;
  /** The last trial that followed it. */
  readonly trial?: Trial;
  readonly air?: AirEntry;
}

/** What was cut from the tip since the pass before, mm: as it is written, else by the lengths. */
export function clippedMm(pass: PassFacts, before: PassFacts | undefined): number {
  if (pass.clipMm !== undefined) return pass.clipMm;
  if (before?.overallLengthMm === undefined || pass.overallLengthMm === undefined) return 0;
  return before.overallLengthMm - pass.overallLengthMm;
}

/** The day of a pass, counted from that of the first one that tells it. */
export function dayOfPass(passes: readonly PassFacts[], { takenAt }: PassFacts): number | undefined {
  const first = passes.find((pass) => pass.takenAt)?.takenAt;
  if (!first || !takenAt) return undefined;
  return Math.round((Date.parse(takenAt) - Date.parse(first)) / DAY_MS) + 1;
}

/** The passes of a reed with what stood beside each: its day, the clip before it, the trial after it, the air. */
export function lifeOf(
  passes: readonly PassFacts[],
  trials: readonly Trial[],
  entries: readonly AirEntry[],
): LifePass[] {
  return passes.map((pass, i) => {
    const day = dayOfPass(passes, pass);
    const trial = trials.findLast(({ afterPass }) => afterPass === pass.index);
    const air = airAt(pass, entries);
    const overallMm = knownOverallMm(passes, i);
    return {
      pass,
      clipMm: clippedMm(pass, passes[i - 1]),
      ...(overallMm !== undefined && { overallMm }),
      ...(day !== undefined && { day }),
      ...(trial && { trial }),
      ...(air && { air }),
    };
  });
}

function airAt({ takenAt }: PassFacts, entries: readonly AirEntry[]): AirEntry | undefined {
  if (takenAt === undefined) return undefined;
  const apartMs = ({ at }: AirEntry) => Math.abs(Date.parse(at) - Date.parse(takenAt));
  const nearest = entries.reduce<AirEntry | undefined>(
    (best, entry) => (best && apartMs(best) <= apartMs(entry) ? best : entry),
    undefined,
  );
  return nearest && apartMs(nearest) <= SAME_AIR_MS ? nearest : undefined;
}

const counted = (count: number, one: string, many: string) =>
  `${countWord(count)} ${count === 1 ? one : many}`;

/** A life in a sentence: how many passes in how many days, the clips, and from which words to which. */
export function sayLife(life: readonly LifePass[]): string {
  const days = life.findLast(({ day }) => day !== undefined)?.day ?? 1;
  const clips = life.filter(({ clipMm }) => clipMm > LEAST_CLIP_MM).length;
  const heard = life.flatMap(({ trial }) => trial?.words ?? []);
  const [first, last] = [heard[0], heard.at(-1)];
  const passes = counted(life.length, 'pass', 'passes');
  const when = days > 1 ? ` in ${counted(days, 'day', 'days')}` : '';
  const cut = clips > 0 ? ` and ${counted(clips, 'clip', 'clips')}` : '';
  const words = first === undefined ? '' : first === last ? `: “${first}”` : `: from “${first}” to “${last}”`;
  return sentence(`${passes}${when}${cut}${words}.`);
}
