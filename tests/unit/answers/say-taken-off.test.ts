import { describe, expect, it } from 'vitest';
import type { Estimate } from '../../../src/surface/reed-model.ts';
import { sayTakenOff } from '../../../src/answers/say-taken-off.ts';
import type { RemovalRow, TakenOff } from '../../../src/answers/taken-off.ts';
import { scenarioReed } from '../../scenario-reed.ts';

const writing = { unit: 'hundredths', decimal: 'point' } as const;
const m142 = scenarioReed('M-142');

const loss = (valueMm: number, uMm = 0.002) => ({
  mean: { valueMm, uMm } satisfies Estimate,
  areaMm2: 10,
  volumeMm3: 10 * valueMm,
  uMm3: 10 * uMm,
});
const row = (title: string, a: number, b: number): RemovalRow => ({
  name: title.toLowerCase(),
  title,
  blades: { A: loss(a), B: loss(b) },
});
const said = (...rows: readonly RemovalRow[]) => {
  const taken: TakenOff = {
    ...{ pair: { before: 2, after: 3 }, rows, spans: {} },
    ...{
      byZone: {},
      maps: {},
      lostZones: {},
      between: {},
      patches: [],
      most: {},
      growth: {},
      mostOf: new Map(),
    },
  };
  return sayTakenOff(m142, taken, writing).say.replace(/\u00a0/g, ' ');
};

describe('what was taken, in a sentence', () => {
  it('is told of both blades once where they lost the same', () => {
    // Half a hundredth apart, 95 % doubt of the difference 0.55 hundredths: not told apart.
    expect(said(row('Heart', 0.03, 0.025))).toBe('Pass 3 took about 3 hundredths from the heart.');
  });

  it('names both blades where they differ, and the one that lost alone', () => {
    expect(said(row('Heart', 0.03, 0.02), row('Tip', 0.001, 0.01))).toBe(
      'Pass 3 took about 3 hundredths from A’s heart, 2 from B’s heart and 1 from B’s tip.',
    );
  });

  it('drops no zone that measurably lost cane', () => {
    const rows = ['Heart', 'Spine', 'Rails', 'Windows', 'Blend'].map((title, i) =>
      row(title, 0.05 - 0.01 * i, 0.05 - 0.01 * i),
    );
    expect(said(...rows)).toBe(
      'Pass 3 took about 5 hundredths from the heart, 4 from the spine, 3 from the rails, and less from the windows and the blend.',
    );
  });

  it('is nothing where no zone lost more than its doubt, or grew', () => {
    expect(said(row('Heart', 0.003, -0.03))).toBe(
      'Pass 3 took nothing that can be told from the doubt of the readings.',
    );
  });
});
