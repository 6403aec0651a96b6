import { BLADES, type Blade } from '../../shared/blade.ts';
import { rectangleZone } from '../../src/blade/zones.ts';
import { findFaults } from '../../src/faults/find-faults.ts';
import { faultOptions } from '../../src/faults/judged-passes.ts';
import { unsettledPasses } from '../../src/faults/unsettled-passes.ts';
import { estimate, pointFunctional } from '../../src/figures/functional.ts';
import { meanRemovedOver, removedAt } from '../../src/figures/removed.ts';
import { shareOver, unreadBetween, withUnread } from '../../src/figures/unread.ts';
import { meanOver, zoneArea, type ZoneArea } from '../../src/figures/zone-mean.ts';
import { fitReed, type FitOptions } from '../../src/surface/fit-reed.ts';
import type { Estimate } from '../../src/surface/reed-model.ts';
import { familyReed, FAMILY_GAUGES, type FamilyReed, type FamilySettings } from '../generator/family-reed.ts';
import { seededRandom } from '../seeded-random.ts';

/** Figures beside their truth: how many, how many within 1.96 u, sums of errors and of their squares, half-widths. */
export interface Tally {
  count: number;
  within: number;
  sumMm: number;
  squaresMm2: number;
  truthMm: number;
  measurable: number;
  readonly halvesMm: number[];
}

export type Tallies = Map<string, Tally>;

const RECTANGLES_MM = { tip: [0.3, 3.6], heart: [5.5, 8.5], back: [10.5, 17] } as const;
const PLACES_PER_PASS = 40;
/** What counts as touched, and as not, mm. */
export const TOUCHED_MM = 0.005;
export const UNTOUCHED_MM = 0.0005;

export function regionOf(fromTipMm: number): 'tip' | 'ridge' | 'heart' | 'back' {
  if (fromTipMm < 3) return 'tip';
  if (fromTipMm < 6) return 'ridge';
  return fromTipMm < 10 ? 'heart' : 'back';
}

export function add(tallies: Tallies, name: string, { valueMm, uMm }: Estimate, trueMm: number): void {
  const tally = tallies.get(name) ?? {
    ...{ count: 0, within: 0, sumMm: 0, squaresMm2: 0, truthMm: 0, measurable: 0 },
    halvesMm: [],
  };
  const error = valueMm - trueMm;
  tally.count += 1;
  tally.within += Number(Math.abs(error) <= 1.96 * uMm);
  tally.sumMm += error;
  tally.squaresMm2 += error * error;
  tally.truthMm += trueMm;
  tally.measurable += Number(Math.abs(valueMm) > 1.96 * uMm);
  tally.halvesMm.push(1.96 * uMm);
  tallies.set(name, tally);
}

/** Reads a reed as the report does, and adds its figures beside their truth. Returns the faults named in clean passes. */
export function studyReed(tallies: Tallies, reed: FamilyReed, options: FitOptions = {}): readonly string[] {
  const asRead = { stepMm: FAMILY_GAUGES[reed.gauge].stepMm, ...options };
  const found = findFaults(reed.passes, faultOptions({ passes: reed.passes, options: asRead }));
  const model = fitReed(reed.passes, { ...asRead, unsettled: unsettledPasses(found) });
  const random = seededRandom(reed.seed + 1_000_000);
  reed.passes.forEach(({ overallLengthMm }, pass) => {
    const clippedMm = pass === 0 ? 0 : reed.passes[pass - 1]!.overallLengthMm - overallLengthMm;
    const pair = { before: pass - 1, after: pass };
    const unread = { A: unreadBetween(reed.passes, pair, 'A'), B: unreadBetween(reed.passes, pair, 'B') };
    for (let k = 0; k < PLACES_PER_PASS; k++) {
      const blade: Blade = random() < 0.5 ? 'A' : 'B';
      const [y, u] = [0.5 + 19.5 * random(), -0.8 + 1.6 * random()];
      const figure = estimate(model, pointFunctional(model, { blade, pass, fromTipMm: y, across: u }));
      add(tallies, `points ${regionOf(y)}`, figure, reed.thicknessMm(blade, pass, y, u));
      if (pass === 0) continue;
      const lostMm = reed.removedMm(blade, pass, y, u);
      const kind = lostMm > TOUCHED_MM ? 'touched' : lostMm < UNTOUCHED_MM ? 'untouched' : 'between';
      const share = unread[blade](y, u);
      const taken = withUnread(estimate(model, removedAt(model, pair, blade, y, u)), share);
      add(tallies, `${kind}${share < 0.5 ? '' : ' unread'}`, taken, lostMm);
    }
    for (const [name, [from, to]] of Object.entries(RECTANGLES_MM))
      for (const side of ['left', 'right', 'both'] as const)
        for (const blade of BLADES) {
          const area = zoneArea(rectangleZone(name, from, to), model.passes[pass]!, side);
          const truth = (of: FamilyReed['thicknessMm']) => meanOf(area, (y, u) => of(blade, pass, y, u));
          add(
            tallies,
            `zone ${name}`,
            estimate(model, meanOver(model, blade, pass, area)!),
            truth(reed.thicknessMm),
          );
          if (pass > 0 && clippedMm === 0) {
            const mean = estimate(model, meanRemovedOver(model, pair, blade, area)!);
            const taken = withUnread(mean, shareOver(area, unread[blade]));
            add(tallies, 'zone removed', taken, truth(reed.removedMm));
          }
        }
  });
  const noise = model.noise;
  const { seatingMm, stepMm } = FAMILY_GAUGES[reed.gauge];
  add(
    tallies,
    'seating',
    { valueMm: noise.seatingMm, uMm: 0 },
    Math.hypot(seatingMm, stepMm / Math.sqrt(12)),
  );
  add(tallies, 'placement', { valueMm: noise.alongMm, uMm: 0 }, reed.handMm);
  return found.flatMap(({ faults }, pass) => {
    const named = faults
      .filter(({ grade }) => grade === 'named')
      .map(({ kind, blade }) => `${kind} ${blade}`);
    return named.length > 0
      ? [`${reed.family} ${reed.extent} ${reed.handMm} seed ${reed.seed} pass ${pass}: ${named.join(', ')}`]
      : [];
  });
}

export function meanOf({ nodes, areaMm2 }: ZoneArea, of: (y: number, u: number) => number): number {
  return nodes.reduce((sum, { x, y, area }) => sum + (area / areaMm2) * of(x, y), 0);
}

/** What is said of one setting, over some seeds. */
export interface CellResult {
  readonly tallies: Tallies;
  readonly cleanPasses: number;
  readonly named: readonly string[];
}

export function studyCell(
  settings: Omit<FamilySettings, 'seed'>,
  firstSeed: number,
  reeds: number,
  options: FitOptions = {},
): CellResult {
  const tallies: Tallies = new Map();
  const named: string[] = [];
  let cleanPasses = 0;
  for (let seed = firstSeed; seed < firstSeed + reeds; seed++) {
    const reed = familyReed({ ...settings, seed });
    cleanPasses += reed.passes.length;
    named.push(...studyReed(tallies, reed, options));
  }
  return { tallies, cleanPasses, named };
}

/** Adds tallies of the same figures. */
export function joined(all: readonly Tallies[]): Tallies {
  const sum: Tallies = new Map();
  for (const tallies of all)
    for (const [name, one] of tallies) {
      const before = sum.get(name);
      sum.set(
        name,
        before
          ? {
              count: before.count + one.count,
              within: before.within + one.within,
              sumMm: before.sumMm + one.sumMm,
              squaresMm2: before.squaresMm2 + one.squaresMm2,
              truthMm: before.truthMm + one.truthMm,
              measurable: before.measurable + one.measurable,
              halvesMm: [...before.halvesMm, ...one.halvesMm],
            }
          : one,
      );
    }
  return sum;
}
