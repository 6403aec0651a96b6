import { describe, expect, it } from 'vitest';
import { scrapePlanSchema } from '../../../shared/scrape-plan.ts';
import { benchReed } from '../../../src/answers/fitted-reed.ts';
import { mapGrid } from '../../../src/figures/surface-map.ts';
import { meantSteps, passAfter, planContent } from '../../../src/plan/kept-plan.ts';
import { makePlan } from '../../../src/plan/make-plan.ts';
import { planAndDone } from '../../../src/plan/meant-and-done.ts';
import { sayDone } from '../../../src/plan/say-done.ts';
import { loggedWork } from '../../../src/plan/stroke-log.ts';
import { targetFromReed } from '../../../src/plan/target.ts';
import { warningsOn } from '../../../src/plan/warnings.ts';
import { scenarioReed } from '../../scenario-reed.ts';

const writing = { unit: 'hundredths', decimal: 'point' } as const;
const m142 = scenarioReed('M-142');
const target = targetFromReed({ benched: scenarioReed('K-117'), pass: 0 }, mapGrid(23, 51, 31));
const own = { benched: m142, pass: 3 };
const { plan } = makePlan(own, target);
const stamp = {
  formatVersion: 1 as const,
  id: '019a0000-0000-7000-8000-000000000001',
  versions: {},
  createdAt: '2026-01-01T10:00:00+01:00',
  updatedAt: '2026-01-01T10:00:00+01:00',
};
const content = planContent(own, target.name, target.grid, plan.steps.slice(0, 1), () => 6, 'bevelled');
const kept = { ...stamp, ...content, reedId: stamp.id };
const [meant] = meantSteps(kept);

/** Taken off, mm. */
const TAKEN_MM = 0.03;

/** M-142 after a fifth pass that took an amount from the rows of the blend, and nothing elsewhere. */
function scraped(takenMm: number) {
  const last = m142.passes[3]!;
  const readings = last.readings.map((reading) => {
    const isWorked = reading.fromTipMm >= 3 && reading.fromTipMm <= 6;
    return { ...reading, thicknessMm: reading.thicknessMm! - (isWorked ? takenMm : 0) };
  });
  const scrape = {
    knife: 'bevelled',
    places: [{ zone: 'Blend', blade: 'both' as const, side: 'both' as const, strokes: 6 }],
  };
  return benchReed(m142.reed, [...m142.passes, { ...last, index: 4, readings, scrape }]);
}

describe('a plan that was taken up', () => {
  it('is kept in a form that brings back the same places', () => {
    expect(scrapePlanSchema.safeParse(kept).success).toBe(true);
    expect(meant!.zone).toBe('blend');
    expect(meant!.blades).toEqual(['A', 'B']);
    for (const { blade, places } of plan.steps[0]!.parts) expect(meant!.places[blade]).toEqual(places);
  });

  it('waits for the next pass that is read', () => {
    expect(passAfter(kept, m142.passes)).toBeUndefined();
    expect(planAndDone(m142, kept)).toBeUndefined();
    expect(passAfter({ afterPass: 1 }, m142.passes)).toBe(2);
  });

  it('is set beside what that pass took', () => {
    const { rows } = planAndDone(scraped(TAKEN_MM), kept)!;
    expect(rows.map(({ blade }) => blade)).toEqual(['A', 'B']);
    for (const { done, meantMm, stillOver } of rows) {
      // Readings of other passes draw a change towards none: within three standard uncertainties of what was taken.
      expect(Math.abs(done.valueMm - TAKEN_MM)).toBeLessThan(3 * done.uMm);
      expect(meantMm).toBeLessThanOrEqual(meant!.excessMm / 2);
      expect(stillOver.valueMm).toBeCloseTo(meant!.excessMm - done.valueMm, 9);
    }
  });

  it('says where nothing can be told to have gone', () => {
    const { rows, outside } = planAndDone(scraped(0), kept)!;
    for (const { verdict } of rows) expect(['less', 'not measurable']).toContain(verdict);
    expect(outside).toBeUndefined();
    expect(sayDone(rows)).toMatch(/A’s blend|B’s blend/);
  });
});

it('reads the logged strokes of a pass with what they took', () => {
  const [work] = loggedWork(scraped(TAKEN_MM));
  expect(work).toMatchObject({ knife: 'bevelled', region: 'blend', strokes: 6, passIndex: 4 });
  expect(work!.removed.valueMm).toBeGreaterThan(0.005);
  expect(work!.removed.uMm).toBeGreaterThan(0);
  expect(loggedWork(m142)).toEqual([]);
});

describe('what to mind', () => {
  const about = (label: string, style?: string) =>
    warningsOn({ own: { benched: scenarioReed(label, style), pass: 0 }, writing });

  it('on M-139 is the side difference of the gouge first, the thin back second', () => {
    const [first, second] = about('M-139');
    expect(first).toMatchObject({ about: 'cane' });
    expect(first!.words).toMatch(/^Side 1 is thicker than side 2 on both blades.*the gouge/);
    expect(second).toMatchObject({ about: 'under floor' });
    expect(second!.words).toMatch(/windows/i);
    expect(second!.words).toMatch(/spine/i);
  });

  it('on S-026 is nothing at 10 mm, where the edges are as thick as the middle', () => {
    for (const { words } of about('S-026', 'short-scrape')) expect(words).not.toMatch(/10\smm|catch|cane/i);
  });

  it('on M-142 is the right window of B at its floor', () => {
    const words = warningsOn({ own, writing }).map((warning) => warning.words);
    expect(words.some((one) => /B’s right window .*floor at 10\smm/.test(one))).toBe(true);
  });
});
