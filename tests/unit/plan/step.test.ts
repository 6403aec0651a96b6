import { describe, expect, it } from 'vitest';
import { followedReed, planTowards } from '../../../src/plan/make-plan.ts';
import { sayStep, stepInWords } from '../../../src/plan/say-step.ts';
import type { Step } from '../../../src/plan/step.ts';
import { scenarioReed } from '../../scenario-reed.ts';
import { cutByPlans } from '../../study/cut-by-plans.ts';

const m142 = { benched: scenarioReed('M-142'), pass: 3 };
const k117 = { benched: scenarioReed('K-117'), pass: 0 };
const { plan } = planTowards(m142, followedReed(k117));
const [first] = plan.steps as [Step];
const WRITING = { unit: 'hundredths', decimal: 'point' } as const;
const NO_KNIFE = { name: undefined, known: undefined };

/** A knife whose yield is the same in every zone. */
const knife = (perStrokeMm: number, uMm: number) => ({
  name: 'bevelled',
  known: { known: true as const, overall: { perStrokeMm, uMm, entries: 2 }, regions: new Map() },
});

describe('the first step towards a favourite', () => {
  it('is the blend of M-142, on both blades: its blend stands too near the tip', () => {
    expect(first).toMatchObject({ zone: 'blend', blades: ['A', 'B'], side: 'both' });
  });

  it('is nothing where nothing measurable may be taken', () => {
    expect(planTowards(k117, followedReed(k117)).plan.steps).toEqual([]);
  });

  it('stays a good way inside the zone: only places that are surely over are outlined', () => {
    const [from, to] = first.atCentre!;
    // By hand from the readings down the middle: 34 and 33 at 4 mm beside 26.5, 41 at 5 mm beside 40; the blend begins at 3.7.
    expect(from).toBeGreaterThan(3.6);
    expect(from).toBeLessThan(4);
    expect(to).toBeGreaterThan(4.3);
    expect(to).toBeLessThan(5);
  });
});

describe('a step in words', () => {
  const said = (step: Step, inHand: Parameters<typeof sayStep>[2] = NO_KNIFE) =>
    sayStep(step, 'K-117', inHand, WRITING);
  const step: Step = { ...first, takeMm: 0.03, excess: { valueMm: 0.0612, uMm: 0.0051 }, stopAndRead: false };

  it('says its amount and what that is part of as the tables write it', () => {
    // 1.959964 x 0.51 = 1.0
    expect(`${said(step).take} ${said(step).of}`).toBe(
      '3 of the 6.1\u00a0±1.0\u00a0hundredths above K-117 there',
    );
    expect(sayStep(step, 'K-117', NO_KNIFE, { unit: 'thou', decimal: 'comma' })).toMatchObject({
      // 0.03 mm is 1.18 thou: what is asked for is never rounded up.
      take: '1,1',
      of: 'of the 2,4\u00a0±0,4\u00a0thou above K-117 there',
    });
  });

  it('gives the range at the centre and at the edges', () => {
    const arched: Step = { ...step, stretch: [3.52, 5.6], atCentre: [3.52, 4.5], atEdges: [5, 5.6] };
    expect(said(arched).where).toBe(
      'Blend, both blades, 3.5 to 4.5\u00a0mm at the centre, 5.0 to 5.6\u00a0mm at the edges',
    );
    const { atEdges, ...middle } = arched;
    expect(atEdges).toBeDefined();
    expect(said(middle).where).toBe('Blend, both blades, 3.5 to 4.5\u00a0mm at the centre');
    expect(said({ ...arched, atCentre: [3.5, 5.6] }).where).toBe('Blend, both blades, 3.5 to 5.6\u00a0mm');
  });

  it('has blades in turn only where there are two', () => {
    expect(said(step).strokes).toBe('A few strokes in each place, the blades in turn.');
    const one: Step = { ...step, blades: ['B'], side: 'left' };
    expect(said(one).strokes).toBe('A few strokes in each place.');
    expect(said(one).where).toMatch(/^Blend, blade B, left side, /);
  });

  it('says what the strokes take, and to stop there where that is less than is asked for', () => {
    // 30 / (2.8 + 1.645 x 0.56) = 8.06: 8 strokes, 8 x 0.28 = 2.2 hundredths.
    expect(stepInWords(said(step, knife(0.0028, 0.00056)))).toMatch(
      /8\sstrokes in each place with the bevelled knife, the blades in turn, take about 2: 0\.28 ±0\.11 a stroke, from 2 logged pieces of work\. Stop there and read the same places before anything else\.$/,
    );
    // 30 / (2.8 + 1.645 x 0.056) = 10.4: 10 strokes, 2.8 hundredths.
    expect(stepInWords(said(step, knife(0.0028, 0.000056)))).toMatch(
      /10\sstrokes .* take about 3: .* Then read the same places again, and play\.$/,
    );
  });

  it('warns of a knife of which one stroke takes more than is asked for', () => {
    expect(said(step, knife(0.05, 0.001)).strokes).toMatch(
      /^A single stroke with the bevelled knife takes about 5, more than is asked/,
    );
  });

  it('ends in a stop where no more would be left than its doubt', () => {
    expect(said({ ...step, stopAndRead: true }).after).toMatch(/^Stop there/);
  });
});

it('keeps away from a lack whose peak lies between two places of the plan’s grid', () => {
  // A lack of two places of 0.1 mm by a sixtieth of the width, sure by 0.02 and at no place of the grid.
  expect(cutByPlans(1, 870)).toMatchObject({ plansWithSteps: 1, nearerThanMargin: 0 });
});

it('outlines only what may be scraped, in simulated plans looked at finer than they were drawn', () => {
  // Both styles, read whole, raggedly and in part.
  const found = cutByPlans(5, 3);
  expect(found.plansWithSteps).toBeGreaterThan(2);
  expect(found.places).toBeGreaterThan(5_000);
  expect(found).toMatchObject({ notMeasurable: 0, intoFloor: 0, nearerThanMargin: 0, moreThanHalf: 0 });
  expect(found.under / found.places).toBeLessThanOrEqual(0.05);
  // Places that end under the target are looked for, and found where plans go that far.
  expect(found.under).toBeGreaterThan(0);
});
