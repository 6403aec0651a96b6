import { turned } from '../round/slips.ts';
import type { FitReading } from '../surface/reed-model.ts';
import type { Change, Explanation } from './explanation.ts';
import type { Grade } from './judge-pass.ts';

/** A reading that stands alone against its neighbours. */
export interface OddReading {
  readonly reading: FitReading;
  /** What the cane of earlier passes and the change around it led to expect, mm. */
  readonly expectedMm: number;
  /** Standard deviations above what was expected; negative below. */
  readonly sds: number;
  /** What was meant, mm, where turning digits or a dial's tenth leads there. */
  readonly meantMm?: number;
  readonly grade: Grade;
}

/** Low, and no slip leads there. */
export const isDig = ({ sds, meantMm }: OddReading) => sds < 0 && meantMm === undefined;

/** Neighbours share a knife's stroke. Common practice, no source. */
const NEAR = { alongMm: 2.6, across: 0.45 };
const SAME_LINE_MM = 4.2;
/** A neighbour on the same line that lost this share of a low reading's loss makes it a scrape. */
const SHARED_LOSS = 0.75;
/** What scraping does to neighbours unalike, one standard deviation, mm. */
const LOCAL_U_MM = 0.004;
const ODD = { sds: 4.5, mm: 0.03 };
/** A knife takes less of one place alone in one pass. Common practice, no source. */
const NO_STROKE_MM = 0.08;
/** Growth that no seating makes. */
const IMPOSSIBLE = { sds: 7.5, mm: 0.05 };
/** A slip put right lands within this many standard deviations of what was expected. */
const LANDING = { high: 2.5, low: 1.5, tenth: 1 };
export const TENTH_MM = 0.1;

/** Readings of a pass that neither earlier passes nor their neighbours lead to expect. */
export function oddReadings({ changes }: Explanation, stepMm: number): OddReading[] {
  return changes.flatMap((change) => {
    const near = changes.filter((other) => other !== change && isNear(change.reading, other.reading));
    const around = { change, near, medianMm: median(near.map(({ changeMm }) => changeMm)), stepMm };
    return high(around) ?? low(around, changes) ?? [];
  });
}

/** A reading's change among those of its neighbours. */
interface Around {
  readonly change: Change;
  readonly near: readonly Change[];
  readonly medianMm: number;
  readonly stepMm: number;
}

/** What a reading is off by from what was expected if the knife took `lossMm` there. */
function oddness({ reading, expectedMm, changeMm, uMm }: Change, lossMm: number) {
  const u = Math.hypot(uMm, LOCAL_U_MM);
  const offMm = changeMm + lossMm;
  return { odd: { reading, expectedMm: expectedMm - lossMm, sds: offMm / u }, offMm, u };
}

/** Too high for cane that only leaves: neighbours that were scraped do not make it odd, neighbours that rose explain it. */
function high({ change, medianMm, stepMm }: Around): OddReading | undefined {
  const { odd, offMm, u } = oddness(change, -Math.max(0, medianMm));
  if (odd.sds < ODD.sds || offMm < ODD.mm) return undefined;
  const { thicknessMm } = change.reading;
  const lowest = odd.expectedMm + Math.min(0, medianMm);
  const meantMm = [...digitsTurned(thicknessMm, stepMm), thicknessMm - TENTH_MM].find(
    (mm) => mm >= lowest - LANDING.high * u && mm <= odd.expectedMm + LANDING.high * u,
  );
  if (meantMm !== undefined) return { ...odd, meantMm, grade: gradeOf(odd.sds) };
  const impossible = odd.sds >= IMPOSSIBLE.sds && offMm >= IMPOSSIBLE.mm;
  return { ...odd, grade: impossible ? 'named' : 'asked' };
}

/** Low and alone. Turned digits may hide a loss as large as a neighbour's; a dial's tenth may as well be a dig. */
function low({ change, near, medianMm, stepMm }: Around, changes: readonly Change[]): OddReading | undefined {
  const { odd, offMm, u } = oddness(change, -medianMm);
  if (odd.sds > -ODD.sds || offMm > -ODD.mm || isPartOfScrape(change, changes)) return undefined;
  const { thicknessMm } = change.reading;
  const lowest = change.expectedMm + Math.min(0, ...near.map(({ changeMm }) => changeMm));
  const highest = Math.max(odd.expectedMm, change.expectedMm);
  const turnedMm = digitsTurned(thicknessMm, stepMm).find(
    (mm) => mm >= lowest - LANDING.low * u && mm <= highest + LANDING.low * u,
  );
  if (turnedMm !== undefined) {
    const isLarge = turnedMm - thicknessMm >= NO_STROKE_MM;
    return { ...odd, meantMm: turnedMm, grade: isLarge ? gradeOf(odd.sds) : 'asked' };
  }
  const tenth = thicknessMm + TENTH_MM;
  const lands = Math.abs(tenth - odd.expectedMm) <= LANDING.tenth * u;
  return { ...odd, ...(lands && { meantMm: tenth }), grade: 'asked' };
}

/** A slip is named when it is this many standard deviations off: an unsure hand on a steep ridge reaches seven. */
export const NAMED_SDS = 8.5;

const gradeOf = (sds: number): Grade => (Math.abs(sds) >= NAMED_SDS ? 'named' : 'asked');

/** The same thickness with two neighbouring digits of its display turned. */
export function digitsTurned(thicknessMm: number, stepMm: number): number[] {
  const places = Math.max(2, Math.round(-Math.log10(stepMm)));
  const [, digits = ''] = thicknessMm.toFixed(places).split('.');
  return turned(digits)
    .filter((text) => text !== digits && Number(text) > 0)
    .map((text) => Number(`0.${text}`));
}

function isPartOfScrape(change: Change, changes: readonly Change[]): boolean {
  const { blade, fromTipMm, across } = change.reading;
  return changes.some(
    ({ reading, changeMm }) =>
      reading !== change.reading &&
      reading.blade === blade &&
      reading.across === across &&
      Math.abs(reading.fromTipMm - fromTipMm) <= SAME_LINE_MM &&
      changeMm < SHARED_LOSS * change.changeMm,
  );
}

function isNear(a: FitReading, b: FitReading): boolean {
  return (
    a.blade === b.blade &&
    Math.abs(a.fromTipMm - b.fromTipMm) <= NEAR.alongMm &&
    Math.abs(a.across - b.across) <= NEAR.across
  );
}

function median(values: readonly number[]): number {
  if (values.length === 0) return 0;
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}
