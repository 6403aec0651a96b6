import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { Reading } from '../../../shared/reading.ts';
import { packReadings, unpackReadings } from '../../../src/ledger/packed-readings.ts';

const mm = (most: number) => fc.double({ min: 0.01, max: most, noNaN: true });
const reading: fc.Arbitrary<Reading> = fc.record(
  {
    blade: fc.constantFrom('A' as const, 'B' as const),
    fromTipMm: mm(60),
    across: fc.constantFrom(-1, -0.5, 0, 1 / 3, 0.5, 1),
    thicknessMm: mm(2),
    repeat: fc.nat(9),
    flag: fc.constantFrom('ok' as const, 'weak' as const, 'no-cane' as const),
    role: fc.constantFrom('station' as const, 'control' as const),
    method: fc.string({ maxLength: 40 }),
    seconds: fc.nat(1e6),
    extra: fc.dictionary(fc.string({ minLength: 1, maxLength: 5 }), fc.string({ maxLength: 9 })),
  },
  { requiredKeys: ['blade', 'fromTipMm', 'across', 'repeat', 'flag', 'role'] },
);

it('gives every reading back as it was, bit for bit', () => {
  fc.assert(
    fc.property(fc.array(reading, { maxLength: 60 }), (readings) => {
      const packed = packReadings(readings);
      expect(unpackReadings(packed, 5000)).toEqual(readings);
      expect(packReadings(unpackReadings(packed, 5000))).toBe(packed);
    }),
    { numRuns: 300, seed: 11 },
  );
});

it('is an eighth as long as the readings one by one', () => {
  const readings = Array.from({ length: 140 }, (_, i): Reading => ({
    blade: i % 2 ? 'A' : 'B',
    fromTipMm: 0.5 + Math.floor(i / 14),
    across: (i % 7) / 3 - 1,
    thicknessMm: Math.round(40 + 20 * Math.sin(i)) / 100,
    repeat: 0,
    flag: 'ok',
    role: 'station',
  }));
  expect(8 * packReadings(readings).length).toBeLessThan(JSON.stringify(readings).length);
});

it.each([
  '',
  '{}',
  '{"n":-1,"columns":{}}',
  '{"n":5001,"columns":{}}',
  '{"n":2,"columns":null}',
  '{"n":1.5,"columns":{}}',
])('refuses %s', (packed) => expect(() => unpackReadings(packed, 5000)).toThrow());
