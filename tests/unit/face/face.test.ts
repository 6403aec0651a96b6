import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import {
  atPass,
  balances,
  beside,
  bladeGrids,
  faults,
  figures,
  fit,
  FormatError,
  InputError,
  OpenQuestionsError,
  parseReed,
  plan,
  readCsv,
  readReeds,
  reedsOf,
  reportReed,
  taken,
  thicknessAt,
  writeLongCsv,
  zoneMeans,
} from '../../../src/index.ts';
import { readSample } from '../../read-sample.ts';

const file = (name: string) => readFileSync(`tests/samples/${name}.csv`);
const [k117] = await readReeds(file('scenario/k-117'));
const favourite = fit(k117!);
const [m142] = await readReeds(file('scenario/m-142'));
const fitted = fit(m142!);
const [sample] = await readReeds(file('passes/sample-fine'));
const fine = fit(sample!);

it('gives the zone means that the report gives, from a file in a few lines', () => {
  const report = reportReed({ reed: { label: 'M-142', styleId: 'long-scrape' }, passes: fitted.passes });
  for (const { index, blades } of report.passes) {
    const means = zoneMeans(fitted, index);
    expect(means).toHaveLength(Object.keys(blades.A!.zones).length + Object.keys(blades.B!.zones).length);
    for (const { zone, blade, meanMm, uMm } of means) {
      expect(meanMm, zone).toBeCloseTo(blades[blade]!.zones[zone]!.meanMm, 12);
      expect(uMm, zone).toBeCloseTo(blades[blade]!.zones[zone]!.uMm, 12);
    }
  }
});

it('is as sure of a place as it says: over places with a known truth the error is one standard uncertainty', () => {
  const errors = readSample('fine').truth.passes.flatMap(({ index, samples_mm }) =>
    samples_mm.map(({ blade, y, u, t }) => {
      const { valueMm, uMm } = thicknessAt(fine, { blade, fromTipMm: y, across: u }, index);
      return (valueMm - t) / uMm;
    }),
  );
  const rms = Math.sqrt(errors.reduce((sum, error) => sum + error * error, 0) / errors.length);
  // Some 40 places of each pass, alike from pass to pass: a root mean square of 1 scatters by about a quarter.
  expect(errors.length).toBeGreaterThan(30);
  expect(rms).toBeGreaterThan(0.5);
  expect(rms).toBeLessThan(1.5);
});

it('has left and right where they are: what the right is thicker by in truth it is thicker by here', () => {
  const pairs = readSample('fine').truth.passes.flatMap(({ index, samples_mm }) =>
    samples_mm
      .filter(({ u }) => u > 0)
      .map(({ blade, y, u, t }) => {
        const facing = samples_mm.find((one) => one.blade === blade && one.y === y && one.u === -u)!;
        const at = (across: number) => thicknessAt(fine, { blade, fromTipMm: y, across }, index).valueMm;
        return { truth: t - facing.t, here: at(u) - at(-u) };
      }),
  );
  const sum = (of: (pair: (typeof pairs)[number]) => number) =>
    pairs.reduce((all, pair) => all + of(pair), 0);
  const slope = sum(({ truth, here }) => truth * here) / sum(({ truth }) => truth * truth);
  // 1 where nothing errs; -1 where left and right are exchanged.
  expect(slope).toBeGreaterThan(0.6);
  expect(slope).toBeLessThan(1.4);
});

it('takes off what two passes differ by, and sets blade against blade', () => {
  const mean = (pass: number) =>
    zoneMeans(fine, pass).find(({ zone, blade }) => zone === 'heart' && blade === 'A')!;
  const off = taken(fine, 1).find(({ zone, blade }) => zone === 'heart' && blade === 'A')!;
  expect(off.takenMm).toBeCloseTo(mean(0).meanMm - mean(1).meanMm, 9);
  expect(taken(fine, 1, 0)).toEqual(taken(fine, 1));
  const heart = balances(fitted).find(({ zone }) => zone === 'heart')!;
  expect(Object.keys(heart)).toEqual(expect.arrayContaining(['blade', 'hand', 'side']));
  expect(figures(fitted).of).toBe('M-142, pass 3');
});

it('plans towards an example: never more than half of what stands above it', () => {
  const compared = beside({ reed: fitted }, { reed: favourite });
  expect(compared.target.name).toBe('K-117');
  const { steps } = plan({ reed: fitted }, { reed: favourite }).plan;
  expect(steps.length).toBeGreaterThan(0);
  for (const { takeMm, excess } of steps) expect(takeMm).toBeLessThanOrEqual(excess.valueMm / 2 + 1e-9);
});

it('takes what `readCsv` returns, and what it writes itself', async () => {
  const outcome = await readCsv([{ name: 'm-142.csv', bytes: file('scenario/m-142') }]);
  expect(reedsOf(outcome)).toEqual([m142]);
  expect(await readReeds(writeLongCsv([m142!], 'comma'))).toEqual([m142]);
  expect(bladeGrids(fitted).map(({ blade }) => blade)).toEqual(['A', 'B']);
});

it('says what readings leave open, as an error with its questions, and takes the answers', async () => {
  const text = 'blade,from_tip_mm,across,thickness\nA,1,0,9\nA,2,0,10\nA,3,0,11\n';
  const asked = await readReeds(text, { name: 'dial.csv' }).catch((error: unknown) => error);
  expect(asked).toBeInstanceOf(OpenQuestionsError);
  expect((asked as OpenQuestionsError).questions[0]!.about).toBe('label');
  const open = await readReeds(text, { label: 'Z-1' }).catch((error: unknown) => error);
  expect((open as OpenQuestionsError).questions[0]!.about).toBe('unit');
  const [reed] = await readReeds(text, { label: 'Z-1', unit: 'hundredths' });
  expect(reed!.passes[0]!.readings.map(({ thicknessMm }) => thicknessMm)).toEqual([0.09, 0.1, 0.11]);
});

it('says what is wrong, where, as an error of its kind', async () => {
  const wrong = 'reed,blade,from_tip_mm,across,thickness_mm\nZ-1,C,1,0,0.2\n';
  await expect(readReeds(wrong)).rejects.toThrow(FormatError);
  await expect(readReeds(wrong)).rejects.toThrow(/line 2, column blade/);
  const [controls] = await readReeds(file('scenario/m-142-controls'));
  expect(() => fit(controls!)).toThrow(InputError);
  expect(() => atPass(fitted, 9)).toThrow('pass: must be one of 0, 1, 2, 3, got 9');
  expect(() => taken(fitted, 0)).toThrow(InputError);
  expect(() => thicknessAt(fitted, { blade: 'A', fromTipMm: 99, across: 0 })).toThrow(InputError);
});

it('names a planted fault of a file', async () => {
  const [swapped] = await readReeds(file('scenario/m-142-swapped'));
  const found = faults(fit(swapped!));
  expect(found.map(({ kind, pass }) => `${kind} ${pass}`)).toContain('swapped 3');
  expect(faults(fitted)).toEqual([]);
});

it('takes a reed as a plain object, with what is usual left out', () => {
  expect(parseReed(JSON.parse(JSON.stringify(m142)))).toEqual(m142);
  const bare = { blade: 'A', fromTipMm: 1, across: 0, thicknessMm: 0.12 };
  const reed = parseReed({ label: 'Z-1', passes: [{ index: 0, readings: [bare] }] });
  expect(reed.passes[0]!.readings).toEqual([{ ...bare, repeat: 0, flag: 'ok', role: 'station' }]);
  const thick = { label: 'Z-1', passes: [{ index: 0, readings: [{ ...bare, thicknessMm: 12 }] }] };
  expect(() => parseReed(thick)).toThrow('passes.0.readings.0.thicknessMm');
  expect(() => parseReed({ label: 'Z-1', passes: [] })).toThrow(FormatError);
});
