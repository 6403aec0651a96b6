import { describe, expect, it } from 'vitest';
import { expectationBeside } from '../../../src/round/beside.ts';
import { oddness } from '../../../src/round/oddness.ts';
import { inOrder } from '../../../src/round/station-order.ts';
import { generatedReed } from '../../generator/generated-reed.ts';
import { seededRandom } from '../../seeded-random.ts';

interface Read {
  readonly blade: 'A' | 'B';
  readonly fromTipMm: number;
  readonly across: number;
  readonly thicknessMm: number;
}
const read = (blade: 'A' | 'B', fromTipMm: number, across: number, thicknessMm: number): Read => ({
  blade,
  fromTipMm,
  across,
  thicknessMm,
});

/** First passes of reeds that played no part in choosing the spreads, in the order of reading. */
function firstPass(seed: number): Read[] {
  const { readings } = generatedReed(seed).passes[0]!;
  const going = { order: 'rows-turning', bladeByBlade: true, sameSideFirst: false, beginOn: 'left' } as const;
  return inOrder(
    readings.map((reading) => ({ ...reading, role: 'station' as const })),
    going,
  ).flatMap(({ blade, fromTipMm, across }) =>
    readings.filter((one) => one.blade === blade && one.fromTipMm === fromTipMm && one.across === across),
  );
}
const isOdd = (reading: Read, others: readonly Read[]) => {
  const expectation = expectationBeside(reading, others);
  return expectation !== undefined && oddness(reading.thicknessMm, expectation, 'hundredths') !== undefined;
};
const SEEDS = Array.from({ length: 30 }, (_, i) => 700 + i);

describe('what stands beside a place', () => {
  it('is the neighbour in the row and the step that the next row makes, by hand', () => {
    // 0.20 beside, 0.14 over, 0.10 at the corner: 0.24. 0.22 on the other side of the blade. Their median: 0.23.
    const others = [
      read('A', 4, 0, 0.2),
      read('A', 3, 0.4, 0.14),
      read('A', 3, 0, 0.1),
      read('A', 4, -0.4, 0.22),
    ];
    const expectation = expectationBeside({ blade: 'A', fromTipMm: 4, across: 0.4 }, others.slice(0, 4));
    expect(expectation?.valueMm).toBeCloseTo(0.23, 12);
    expect(expectation?.by).toBe('beside');
  });

  it('weighs the rows to both sides by their distances', () => {
    // Between 0.30 at 6 mm and 0.42 at 9 mm: 0.34 at 7 mm. Facing: 0.36. Their median: 0.35.
    const others = [read('A', 6, 0, 0.3), read('A', 9, 0, 0.42), read('B', 7, 0, 0.36)];
    expect(expectationBeside({ blade: 'A', fromTipMm: 7, across: 0 }, others)?.valueMm).toBeCloseTo(0.35, 12);
  });

  it('is not told by one reading alone, nor by rows far off', () => {
    const place = { blade: 'A', fromTipMm: 12, across: 0 } as const;
    expect(expectationBeside(place, [read('B', 12, 0, 0.5)])).toBeUndefined();
    expect(expectationBeside(place, [read('A', 4, 0, 0.3), read('A', 18, 0, 0.5)])).toBeUndefined();
  });

  it('calls fewer than one in a thousand sound readings odd', () => {
    const calls = SEEDS.map((seed) => {
      const pass = firstPass(seed);
      return {
        n: pass.length,
        entered: pass.filter((one, i) => isOdd(one, pass.slice(0, i))).length,
        end: pass.filter((one) =>
          isOdd(
            one,
            pass.filter((other) => other !== one),
          ),
        ).length,
      };
    });
    const sum = (key: 'n' | 'entered' | 'end') => calls.reduce((total, call) => total + call[key], 0);
    expect(sum('n')).toBeGreaterThan(3500);
    expect(sum('entered') / sum('n')).toBeLessThan(0.001);
    expect(sum('end') / sum('n')).toBeLessThan(0.001);
  });

  it('tells a tenth misread or digits turned: most as they come, all but few by the end', () => {
    const random = seededRandom(41);
    let [planted, entered, told] = [0, 0, 0];
    for (const seed of SEEDS) {
      const pass = firstPass(seed);
      for (let k = 0; k < 8; k++) {
        const i = Math.floor(random() * pass.length);
        const count = Math.round(pass[i]!.thicknessMm * 100);
        const digits = String(count).padStart(2, '0');
        const slip = k % 2 === 0 ? count + 10 : Number(`${digits[1]}${digits[0]}`);
        if (Math.abs(slip - count) < 9 || slip === 0) continue;
        const typed = { ...pass[i]!, thicknessMm: slip / 100 };
        planted += 1;
        const atOnce = isOdd(typed, pass.slice(0, i));
        if (atOnce) entered += 1;
        if (
          atOnce ||
          isOdd(
            typed,
            pass.filter((_, j) => j !== i),
          )
        )
          told += 1;
      }
    }
    expect(planted).toBeGreaterThan(150);
    expect(entered / planted).toBeGreaterThan(0.6);
    expect(told / planted).toBeGreaterThan(0.97);
  });
});
