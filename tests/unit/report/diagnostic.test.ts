import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { StorageError } from '../../../src/ledger/errors.ts';
import { diagnosticText } from '../../../src/report/diagnostic.ts';

const AROUND = { browser: 'Browser 1.0', windowPx: [1440, 900] as const, place: 'setup' };

describe('the diagnostic', () => {
  it('names the errors behind one another and where in the program they arose', () => {
    const cause = new DOMException('The disk is full.', 'QuotaExceededError');
    const text = diagnosticText(new StorageError('full', { cause }), AROUND);
    expect(text).toContain('error: StorageError (full) < QuotaExceededError');
    expect(text).toMatch(/ diagnostic\.test\.ts:\d+:\d+/);
    expect(text).toContain('window: 1440 x 900 px, place: setup');
  });

  it('reads the frames of every engine, and leaves their addresses out', () => {
    const error = new Error('');
    error.stack =
      'draw@https://bench.example/maker/assets/desk-Ab1.js:1:234\n    at Desk.update (http://localhost:5173/map.ts?t=1:20:3)';
    const text = diagnosticText(error, AROUND);
    expect(text).toContain('  draw desk-Ab1.js:1:234\n  Desk.update map.ts:20:3');
    expect(text).not.toMatch(/example|localhost|maker/);
  });

  it('holds nothing of what an error says, whatever that is', () => {
    const around = diagnosticText(new RangeError(''), AROUND);
    const secret = fc.string({ minLength: 12, maxLength: 60 }).filter((text) => !around.includes(text));
    fc.assert(
      fc.property(secret, fc.constantFrom('', '\n    at ', '\n'), (words, before) => {
        const text = diagnosticText(new RangeError(`${before}${words} (reed.ts:1:1)`), AROUND);
        expect(text).not.toContain(words);
        expect(text).not.toContain('reed.ts');
      }),
      { seed: 4, numRuns: 200 },
    );
  });

  it('says what little there is of something thrown that is no error', () => {
    expect(diagnosticText('my secret', AROUND)).toContain('error: string');
    expect(diagnosticText('my secret', AROUND)).not.toContain('secret');
  });
});
