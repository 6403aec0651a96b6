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

/** Neighbours share a knife's stroke. Common practice, no source. */
const NEAR = { alongMm: 2.6, across: 0.45 };
const SAME_LINE_MM = 4.2;
/** A neighbour on the same line that lost this share of a low reading's loss makes it a scrape. */
const SHARED_LOSS = 0.75;
/** What scraping does to neighbours unalike, one standard deviation, mm. */
const LOCAL_U_MM = 0.004;
const ODD = { sds: 4.5, mm: 0.03 };
/** Growth that no seating makes. */
const IMPOSSIBLE = { sds: 6, mm: 0.05 };
/** A slip put right lands within this many standard deviations of what was expected. */
const LANDING = { high: 2.5, low: 1.5, tenth: 1 };
const TENTH_MM = 0.1;

/** Readings of a pass that neither earlier passes nor their neighbours lead to expect. */
export function oddReadings({ changes }: Explanation, stepMm: number): OddReading[] {
  return changes.flatMap((change) => {
    const near = changes.filter((other) => other !== change && isNear(change.reading, other.reading));
    const around = median(near.map(({ changeMm }) => changeMm));
    const uMm = Math.hypot(change.uMm, LOCAL_U_MM);
    const offMm = change.changeMm - around;
    const sds = offMm / uMm;
    if (Math.abs(sds) < ODD.sds || Math.abs(offMm) < ODD.mm) return [];
    const odd = { reading: change.reading, expectedMm: change.expectedMm + around, sds };
    if (offMm > 0) return [high(odd, offMm, uMm, stepMm)];
    if (isPartOfScrape(change, changes)) return [];
    return [low(odd, change, near, uMm, stepMm)];
  });
}

type Odd = Omit<OddReading, 'grade' | 'meantMm'>;

function high(odd: Odd, offMm: number, uMm: number, stepMm: number): OddReading {
  const { thicknessMm } = odd.reading;
  const meantMm = nearest([...digitsTurned(thicknessMm, stepMm), thicknessMm - TENTH_MM], odd.expectedMm);
  if (Math.abs(meantMm - odd.expectedMm) <= LANDING.high * uMm) return { ...odd, meantMm, grade: 'named' };
  const impossible = odd.sds >= IMPOSSIBLE.sds && offMm >= IMPOSSIBLE.mm;
  return { ...odd, grade: impossible ? 'named' : 'asked' };
}

/** Turned digits may hide a loss as large as a neighbour's. */
function low(odd: Odd, change: Change, near: readonly Change[], uMm: number, stepMm: number): OddReading {
  const most = Math.min(0, ...near.map(({ changeMm }) => changeMm));
  const [fromMm, toMm] = [
    change.expectedMm + most - LANDING.low * uMm,
    Math.max(odd.expectedMm, change.expectedMm) + LANDING.low * uMm,
  ];
  const { thicknessMm } = odd.reading;
  const tenth = thicknessMm + TENTH_MM;
  const meantMm =
    digitsTurned(thicknessMm, stepMm).find((mm) => mm >= fromMm && mm <= toMm) ??
    (Math.abs(tenth - odd.expectedMm) <= LANDING.tenth * uMm ? tenth : undefined);
  return meantMm === undefined ? { ...odd, grade: 'asked' } : { ...odd, meantMm, grade: 'named' };
}

/** The same thickness with two neighbouring digits of its display turned. */
function digitsTurned(thicknessMm: number, stepMm: number): number[] {
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

function nearest(values: readonly number[], to: number): number {
  return values.reduce(
    (best, value) => (Math.abs(value - to) < Math.abs(best - to) ? value : best),
    Infinity,
  );
}

function median(values: readonly number[]): number {
  if (values.length === 0) return 0;
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}
