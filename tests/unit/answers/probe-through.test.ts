import { expect, it } from 'vitest';
import { probeWords } from '../../../src/answers/probe-words.ts';
import { standingReadings } from '../../../src/answers/standing-readings.ts';
import { readingText } from '../../../src/words/format.ts';
import { scenarioReed } from '../../scenario-reed.ts';

const WRITING = { unit: 'hundredths', decimal: 'comma' } as const;

it('says what the surface through every reading is at a station: the reading itself, beside the smoothed figure', () => {
  const benched = scenarioReed('K-117');
  const station = standingReadings(benched, 0).find(
    ({ blade, fromTipMm }) => blade === 'B' && fromTipMm === 8,
  )!;
  const said = probeWords(benched, 0, station, 'through', WRITING);
  const read = readingText(station.thicknessMm, WRITING).replace(/^(\d+)$/, '$1,0');
  expect(said.split('facing it')[0]).toContain(`, through every reading ${read}`);
  // Past the last row it says nothing: it would only swing there.
  const past = probeWords(benched, 0, { ...station, fromTipMm: 21 }, 'through', WRITING);
  expect(past).not.toContain('through every reading');
});
