import { describe, expect, it } from 'vitest';
import { benchReed } from '../../../src/answers/fitted-reed.ts';
import { figuresOf, zoneMean } from '../../../src/answers/record/reed-figures.ts';
import { mapGrid } from '../../../src/figures/surface-map.ts';
import { besideTables, independentRatio } from '../../../src/plan/beside-figures.ts';
import { compare } from '../../../src/plan/compare.ts';
import { compareInWay } from '../../../src/plan/compare-in-way.ts';
import { offsetTarget, targetFromReed, targetFromSeveral } from '../../../src/plan/target.ts';
import { usualTarget } from '../../../src/plan/hand-target.ts';
import { scenarioReed } from '../../scenario-reed.ts';

const grid = mapGrid(23, 51, 31);
const k117 = { benched: scenarioReed('K-117'), pass: 0 };
const m142 = { benched: scenarioReed('M-142'), pass: 3 };
const favourite = targetFromReed(k117, grid);
const tables = besideTables(compare(m142, favourite));

describe('a reed beside a reed', () => {
  it('has the very figures that each has alone', () => {
    const [mine, theirs] = [figuresOf(m142), figuresOf(k117)];
    for (const { name, title, figures } of tables.zones.rows) {
      if (String(title).includes('in part')) continue;
      expect(figures.slice(0, 2)).toEqual([zoneMean(mine, name), zoneMean(theirs, name)]);
      expect(figures[2]!.value).toBeCloseTo(figures[0]!.value! - figures[1]!.value!, 12);
    }
    for (const name of ['crossings', 'ratios'] as const) {
      const beside = tables[name].rows.map(({ figures }) => figures);
      const alone = [mine, theirs].map((figures) => figures.table(name).rows.map((row) => row.figures[0]!));
      expect(beside).toEqual(alone[0]!.map((figure, i) => [figure, alone[1]![i]]));
    }
  });

  it('names what is over a part of a zone otherwise than the zone', () => {
    const upper = k117.benched.passes.map((pass) => ({
      ...pass,
      readings: pass.readings.filter(({ fromTipMm }) => fromTipMm <= 14),
    }));
    const part = targetFromReed({ benched: benchReed(k117.benched.reed, upper), pass: 0 }, grid);
    const spine = besideTables(compare(m142, part)).zones.rows.find(({ name }) => name === 'spine')!;
    expect(spine.title).toBe('Spine, in part');
    const mean = zoneMean(figuresOf(m142), 'spine')!;
    expect(spine.figures[0]!.id).not.toBe(mean.id);
    // Without its lower third the spine of a blade that thickens downwards is thinner.
    expect(spine.figures[0]!.value).toBeLessThan(mean.value! - 0.005);
  });

  it('shows shares of the cane as shares, and what is scaled under its own name', () => {
    const share = besideTables(compareInWay(m142, favourite, 'share', () => undefined)).zones.rows[0]!;
    expect(share.figures.map(({ quantity }) => quantity)).toEqual(['share', 'share', 'share difference']);
    expect(share.figures[0]!.value).toBeGreaterThan(0.05);
    expect(share.figures[0]!.value).toBeLessThan(0.4);
    const shape = besideTables(compareInWay(m142, favourite, 'shape', () => undefined)).zones.rows[0]!;
    expect(shape.figures[0]).toEqual(zoneMean(figuresOf(m142), shape.name));
    expect(shape.figures[1]!.of).toBe('K-117 in shape');
  });
});

describe('ratios beside each other', () => {
  it('have the doubt of independent zones where the other is no single reed', () => {
    // 0.2 +- 0.002 over 0.4 +- 0.004: 0.5, relative doubt 0.01 times the root of 2.
    const { value, u } = independentRatio({ valueMm: 0.2, uMm: 0.002 }, { valueMm: 0.4, uMm: 0.004 });
    expect(value).toBeCloseTo(0.5, 12);
    expect(u).toBeCloseTo(0.5 * 0.01 * Math.SQRT2, 12);
    const thicker = besideTables(compare(m142, offsetTarget(favourite, 0.05))).ratios.rows;
    const alone = tables.ratios.rows;
    expect(thicker[0]!.figures[1]!.value).not.toBeCloseTo(alone[0]!.figures[1]!.value!, 3);
  });
});

describe('balance beside each other', () => {
  const windows = (of: ReturnType<typeof besideTables>) =>
    of.balance.rows.find(({ name }) => name === 'zone.windows.hand')!.figures;

  it('holds what is uneven on either, each with its own figure', () => {
    const [own, other] = windows(tables);
    const alone = (reed: typeof m142) =>
      figuresOf(reed).zones.find(({ name }) => name === 'windows')!.balance!.hand.valueMm;
    expect([own!.value, other!.value]).toEqual([alone(m142), alone(k117)]);
  });

  it('has the mean of several reeds, and nothing where there is no reed', () => {
    const several = targetFromSeveral('both', [favourite, targetFromReed(m142, grid)]);
    const { style, frame } = m142.benched.assembled;
    const [one, both] = [windows(tables), windows(besideTables(compare(m142, several)))];
    expect(both[1]!.value).toBeCloseTo((one[1]!.value! + one[0]!.value!) / 2, 9);
    const usual = windows(besideTables(compare(m142, usualTarget({ style, frame, grid }))));
    expect(usual[1]!.absent).toBe('it has no such zone');
  });
});
