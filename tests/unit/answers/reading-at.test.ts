import { expect, it } from 'vitest';
import { readingAt } from '../../../src/answers/reading-at.ts';
import { scenarioReed } from '../../scenario-reed.ts';

const m142 = scenarioReed('M-142');

it('finds the reading that stands at a station, in the pass that read it and from that pass’s tip', () => {
  expect(readingAt(m142, 3, { blade: 'B', fromTipMm: 10, across: 0.4 })).toEqual({
    passIndex: 3,
    place: { blade: 'B', fromTipMm: 10, across: 0.4 },
  });
  // Pass 2 read nothing below 14 mm. The clip of 0.4 mm before it moved what pass 1 read at 18 to 17.6.
  const older = readingAt(m142, 2, { blade: 'A', fromTipMm: 17.6, across: 0 })!;
  expect(older.passIndex).toBeLessThan(2);
  expect(older.place.fromTipMm).toBeCloseTo(18, 9);
});

it('finds none where none is near', () => {
  expect(readingAt(m142, 3, { blade: 'A', fromTipMm: 11, across: 0.2 })).toBeUndefined();
});
