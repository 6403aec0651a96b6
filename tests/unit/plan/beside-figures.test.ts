import { describe, expect, it } from 'vitest';
import { zonesAt } from '../../../src/answers/benched-reed.ts';
import { mapGrid } from '../../../src/figures/surface-map.ts';
import { zoneFigures } from '../../../src/figures/zone-figures.ts';
import { balanceBeside, ratiosBeside } from '../../../src/plan/beside-figures.ts';
import { compare } from '../../../src/plan/compare.ts';
import { targetFromReed, targetFromSeveral } from '../../../src/plan/target.ts';
import { usualTarget } from '../../../src/plan/hand-target.ts';
import { scenarioReed } from '../../scenario-reed.ts';

const grid = mapGrid(23, 51, 31);
const k117 = { benched: scenarioReed('K-117'), pass: 0 };
const m142 = { benched: scenarioReed('M-142'), pass: 3 };
const favourite = targetFromReed(k117, grid);

describe('ratios beside each other', () => {
  const ratios = ratiosBeside(m142, compare(m142, favourite).zones);

  it('are those of the zone means', () => {
    const means = zonesAt(m142.benched, 3).map((zone) => zoneFigures(m142.benched.model!, 3, zone));
    const meanMm = (name: string) => means.find((zone) => zone.name === name)!.mean!.valueMm;
    const tip = ratios.find(({ title }) => title === 'Tip to heart')!;
    // Zones are integrated whole here and by halves there.
    expect(tip.own.value).toBeCloseTo(meanMm('tip') / meanMm('heart'), 6);
    expect(tip.own.u).toBeGreaterThan(0);
  });

  it('agree with the reed itself on the other side, with no smaller doubt', () => {
    const itself = ratiosBeside(k117, compare(k117, favourite).zones);
    expect(itself.length).toBe(5);
    for (const { own, other } of itself) {
      // The other's zones are summed over the target's grid, the own are exact.
      expect(Math.abs(own.value - other!.value)).toBeLessThan(0.002);
      expect(other!.u).toBeGreaterThan(0.8 * own.u);
    }
  });
});

describe('balance beside each other', () => {
  it('holds what is uneven on either, each with its own figure', () => {
    const rows = balanceBeside(m142, favourite);
    expect(rows.map(({ title, contrast }) => `${title} ${contrast}`)).toContain('Windows hand');
    for (const { other } of rows) expect(other).toBeDefined();
  });

  it('has the mean of several reeds, and nothing where there is no reed', () => {
    const several = targetFromSeveral('both', [favourite, targetFromReed(m142, grid)]);
    const { style, frame } = m142.benched.assembled;
    const windows = (of: typeof several) =>
      balanceBeside(m142, of).find(({ title, contrast }) => title === 'Windows' && contrast === 'hand')!;
    const [one, both] = [windows(favourite), windows(several)];
    expect(both.other!.valueMm).toBeCloseTo((one.other!.valueMm + one.own.valueMm) / 2, 9);
    expect(windows(usualTarget({ style, frame, grid })).other).toBeUndefined();
  });
});
