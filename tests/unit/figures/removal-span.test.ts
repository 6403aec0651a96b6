import { describe, expect, it } from 'vitest';
import { sayRemovalSpan } from '../../../src/answers/span-words.ts';
import { removalSpan } from '../../../src/figures/removed.ts';
import { fitReed } from '../../../src/surface/fit-reed.ts';
import { readSample } from '../../read-sample.ts';

// Invented: pass 1 read only A, pass 2 only B.
const { passes } = readSample('partial');
const model = fitReed(passes);
const of = (blade: 'A' | 'B', before: number, after: number) => removalSpan(model, { before, after }, blade);

describe('what a blade’s removal is counted from', () => {
  it('is nothing to mention where both passes read it', () => {
    expect(of('A', 0, 1)).toEqual({});
    expect(of('A', 0, 2)).toEqual({});
    expect(sayRemovalSpan('A', {}, 1)).toBeUndefined();
  });

  it('belongs to the next pass that reads it', () => {
    expect(of('B', 0, 1)).toEqual({ notRead: true, countedIn: 2 });
    expect(of('B', 1, 2)).toEqual({ since: 0 });
    expect(sayRemovalSpan('B', of('B', 0, 1), 1)).toBe(
      'B was not read in pass 1: what came off it is counted in pass 2.',
    );
  });

  it('is not known after the last reading, nor before the first', () => {
    expect(of('A', 1, 2)).toEqual({ notRead: true });
    const late = fitReed([
      { ...passes[0]!, readings: passes[0]!.readings.filter(({ blade }) => blade === 'A') },
      ...passes.slice(1),
    ]);
    expect(removalSpan(late, { before: 0, after: 2 }, 'B')).toEqual({ notRead: true });
  });
});
