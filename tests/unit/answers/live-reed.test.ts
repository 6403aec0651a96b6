import { describe, expect, it } from 'vitest';
import type { Pass } from '../../../shared/pass.ts';
import type { Reading } from '../../../shared/reading.ts';
import { benchReed } from '../../../src/answers/fitted-reed.ts';
import {
  expectedReading,
  leftOpen,
  liveFigures,
  liveReed,
  withOneMore,
} from '../../../src/answers/live-reed.ts';
import { estimate, pointFunctional } from '../../../src/figures/functional.ts';
import { thicknessMap } from '../../../src/figures/surface-map.ts';
import { zoneFigures } from '../../../src/figures/zone-figures.ts';
import { zonesAt } from '../../../src/answers/fitted-reed.ts';
import { scenarioReed } from '../../scenario-reed.ts';

const whole = scenarioReed('M-142');
const last = whole.passes.at(-1)!;
const held = last.readings.filter(({ blade, fromTipMm }) => blade === 'A' && fromTipMm === 8);

/** The reed with the last pass's row at 8 mm of A not read yet. */
function before() {
  const passes = whole.passes.map((pass): Pass =>
    pass === last ? { ...pass, readings: pass.readings.filter((reading) => !held.includes(reading)) } : pass,
  );
  return liveReed(benchReed(whole.reed, passes), last.index)!;
}
const typed = (readings: readonly Reading[]) =>
  readings.reduce((live, reading) => withOneMore(live, last, reading)!, before());

describe('a reed while a pass is typed', () => {
  it('shows the figures and the map of its own model, by their usual functions', () => {
    const live = typed(held);
    const { zones, maps } = liveFigures(live);
    zonesAt(live.benched, live.pass).forEach((zone, i) => {
      const { blades } = zoneFigures(live.model, live.pass, zone);
      // The same mean by quadrature over the whole zone and over its halves: both are good to 3e-6 mm.
      expect(Math.abs(zones[i]!.blades.A!.valueMm - blades.A!.valueMm)).toBeLessThan(6e-6);
      expect(Math.abs(zones[i]!.blades.A!.uMm - blades.A!.uMm)).toBeLessThan(6e-6);
    });
    const map = thicknessMap(live.model, 'A', live.pass, live.grid);
    maps.A!.forEach((valueMm, k) => expect(valueMm).toBeCloseTo(map.valuesMm[k]!, 10));
  });

  it('comes close to the full fit with the same readings', () => {
    const live = liveFigures(typed(held)).zones;
    const full = liveFigures(liveReed(whole, last.index)!).zones;
    // Only smoothing and noise are held: a difference well inside the figure's own doubt.
    live.forEach(({ blades: { A } }, i) => {
      expect(Math.abs(A!.valueMm - full[i]!.blades.A!.valueMm), full[i]!.title).toBeLessThan(A!.uMm / 2);
    });
  });

  it('expects what is then read, and shrinks its doubt', () => {
    const live = before();
    for (const reading of held) {
      const { valueMm, uMm } = expectedReading(live, reading)!;
      expect(Math.abs(reading.thicknessMm! - valueMm)).toBeLessThan(3 * uMm);
      expect(expectedReading(withOneMore(live, last, reading)!, reading)!.uMm).toBeLessThan(uMm);
    }
  });

  it('works nothing out anew with the first reading of a blade, and expects a usual scrape before it', () => {
    const [reading] = held;
    const passes = whole.passes.map((pass) => (pass === last ? { ...pass, readings: [] } : pass));
    const live = liveReed(benchReed(whole.reed, passes), last.index)!;
    const first = withOneMore(live, last, reading!)!;
    expect(first.weights).toBe(live.weights);
    expect(live.begun).toEqual([]);
    expect(first.begun).toEqual(['A']);
    const { valueMm } = estimate(live.model, pointFunctional(live.model, { ...reading!, pass: live.pass }));
    expect(expectedReading(live, reading!)!.valueMm).toBeLessThan(valueMm - 0.005);
  });

  it('names a place inside what was read as the least sure, and maps the standard errors', () => {
    const live = before();
    const { maps, leastSure: place } = leftOpen(live);
    const { ysMm, us } = live.grid;
    const at = { blade: 'B', pass: live.pass, fromTipMm: ysMm[7]!, across: us[3]! } as const;
    expect(maps.B![7 * us.length + 3]).toBeCloseTo(
      estimate(live.model, pointFunctional(live.model, at)).uMm,
      12,
    );
    expect(place!.uMm).toBeGreaterThan(0);
    expect(place!.fromTipMm).toBeLessThanOrEqual(20);
  });
});
