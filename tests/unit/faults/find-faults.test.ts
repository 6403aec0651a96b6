import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { PassContent } from '../../../src/reed/assemble.ts';
import { assembleReed } from '../../../src/reed/assemble.ts';
import { readCsv } from '../../../src/exchange/csv/read-csv.ts';
import type { PassFaults } from '../../../src/faults/fault.ts';
import { findFaults } from '../../../src/faults/find-faults.ts';
import { faultOptions, judgedPasses } from '../../../src/faults/judged-passes.ts';

const SAMPLES = new URL('../../samples/', import.meta.url);

async function passesOf(...names: string[]): Promise<PassContent[]> {
  const outcome = await readCsv(
    names.map((name) => ({ name, bytes: readFileSync(new URL(name, SAMPLES)), answers: {} })),
  );
  if (outcome.outcome !== 'understood') throw new Error(`${names.join()}: ${outcome.outcome}`);
  return outcome.reeds[0]!.passes.map((pass) => ({ ...pass, readings: [...pass.readings], remedies: [] }));
}

function faultsIn(passes: readonly PassContent[]): PassFaults[] {
  const assembled = assembleReed({ reed: { label: 'invented', styleId: 'long-scrape' }, passes });
  return findFaults(judgedPasses(assembled, passes), faultOptions(assembled));
}

const known = new Map<string, PassFaults[]>();
/** Worked out once for all who ask. */
async function faultsOf(...names: string[]): Promise<PassFaults[]> {
  const found = known.get(names.join()) ?? faultsIn(await passesOf(...names));
  known.set(names.join(), found);
  return found;
}

const sample = (name: string) => `passes/sample-${name}.csv`;
const scenario = (name: string) => `scenario/${name}.csv`;

describe('a planted fault is named, with what undoes it', () => {
  it('zero: 0.020 added, then 0.035 less, which scraping could have done', async () => {
    const [first, second, third] = await faultsOf(sample('zero'));
    expect(first!.faults).toEqual([]);
    expect(second!.faults).toMatchObject([{ kind: 'zero', blade: 'both', grade: 'named' }]);
    expect(Math.abs(second!.faults[0]!.valueMm! - 0.02)).toBeLessThan(0.004);
    expect(second!.faults[0]!.remedy).toMatchObject({ kind: 'zero', addedMm: second!.faults[0]!.valueMm });
    expect(third!.faults).toMatchObject([{ kind: 'zero', blade: 'both', grade: 'asked' }]);
    expect(Math.abs(third!.faults[0]!.valueMm! + 0.015)).toBeLessThan(0.004);
  });

  it('a shift of 0.5 mm, which one pass cannot tell from a clip', async () => {
    const [, { faults }] = (await faultsOf(sample('shifted'))) as [PassFaults, PassFaults];
    expect(faults).toMatchObject([
      { kind: 'clip', grade: 'named', orElse: ['shifted'], remedy: { kind: 'clip' } },
      { kind: 'shifted', grade: 'named', orElse: ['clip'], remedy: { kind: 'shifted', blade: 'both' } },
    ]);
    // Each of the two lengths is off by 0.05 mm.
    expect(Math.abs(faults[0]!.valueMm! - 0.5)).toBeLessThan(0.1);
  });

  it('blades swapped', async () => {
    const [, second] = await faultsOf(sample('swapped'));
    expect(second!.faults).toMatchObject([{ kind: 'swapped', grade: 'named', remedy: { kind: 'swapped' } }]);
  });

  it('both blades mirrored', async () => {
    const [, second] = await faultsOf(sample('mirrored'));
    const remedy = { kind: 'mirrored', blade: 'both' };
    expect(second!.faults).toMatchObject([{ kind: 'mirrored', blade: 'both', grade: 'named', remedy }]);
  });

  it('digits turned to a low number and to a high one', async () => {
    const [, second, third] = await faultsOf(sample('typo'));
    const low = { kind: 'digits', blade: 'A', fromTipMm: 8, across: 0.4, thicknessMm: 0.43 };
    const high = { kind: 'digits', blade: 'B', fromTipMm: 3, across: -0.4, thicknessMm: 0.16 };
    expect(second!.faults).toMatchObject([{ kind: 'digits', grade: 'named', remedy: low }]);
    expect(third!.faults).toMatchObject([{ kind: 'digits', grade: 'named', remedy: high }]);
  });
});

describe('clean reeds', () => {
  it.each(['plain', 'clip', 'partial', 'fine'])('nothing is named in %s', async (name) => {
    const named = (await faultsOf(sample(name))).flatMap(({ faults }) =>
      faults.filter(({ grade }) => grade === 'named'),
    );
    expect(named).toEqual([]);
  });

  it.each(['k-117', 's-026', 'm-139'])('nothing is said of %s, which was read once', async (name) => {
    expect(await faultsOf(scenario(name))).toMatchObject([{ faults: [], readAgain: [] }]);
  });
});

describe('M-142 in four passes', () => {
  it('is sound by its stations, and the dig is read again rather than called a slip', async () => {
    const found = await faultsOf(scenario('m-142'));
    expect(found.map(({ faults }) => faults)).toEqual([[], [], [], []]);
    expect(found[3]!.readAgain).toMatchObject([{ blade: 'B', fromTipMm: 10, across: 0.4, readMm: 0.35 }]);
  });

  it('swelled in pass 2, as its untouched cane shows', async () => {
    const found = await faultsOf(scenario('m-142'), scenario('m-142-controls'));
    expect(found.map(({ faults }) => faults.map(({ kind, grade }) => `${grade} ${kind}`))).toEqual([
      [],
      [],
      ['named swelling'],
      [],
    ]);
    // Controls rose from 1.17 to 1.19, summed over both blades.
    expect(Math.abs(found[2]!.faults[0]!.factor! - 1.017)).toBeLessThan(0.005);
  });

  it('finds a clip of 0.4 mm that was not entered', async () => {
    const found = await faultsOf(scenario('m-142-clip-not-entered'));
    expect(found[1]!.faults).toEqual([]);
    expect(found[2]!.faults[0]).toMatchObject({ kind: 'clip', grade: 'named' });
    const { valueMm, uMm } = found[2]!.faults[0]!;
    expect(uMm).toBeLessThan(0.1);
    expect(Math.abs(valueMm! - 0.4)).toBeLessThanOrEqual(1.96 * uMm!);
  });

  it('names turned digits', async () => {
    const [, second] = await faultsOf(scenario('m-142-digits-turned'));
    const remedy = { kind: 'digits', blade: 'B', fromTipMm: 5, across: -0.4, thicknessMm: 0.35 };
    expect(second!.faults).toMatchObject([{ kind: 'digits', grade: 'named', remedy }]);
  });

  it('asks about a mirrored blade and about swapped blades, the right one first', async () => {
    const mirrored = await faultsOf(scenario('m-142-b-mirrored'));
    expect(mirrored[3]!.faults[0]).toMatchObject({ kind: 'mirrored', blade: 'B' });
    const swapped = await faultsOf(scenario('m-142-swapped'));
    expect(swapped[3]!.faults[0]).toMatchObject({ kind: 'swapped' });
    for (const found of [mirrored, swapped])
      expect(found.slice(0, 3).flatMap(({ faults }) => faults)).toEqual([]);
  });
});

describe('a remedy that was accepted', () => {
  it.each([
    [sample('zero'), 1],
    [sample('shifted'), 1],
    [sample('swapped'), 1],
    [sample('mirrored'), 1],
    [sample('typo'), 1],
    [sample('typo'), 2],
    [scenario('m-142-clip-not-entered'), 2],
    [scenario('m-142-digits-turned'), 1],
  ] as const)('%s, pass %d: the first one leaves nothing to be found there', async (name, index) => {
    const passes = await passesOf(name);
    const { remedy } = (await faultsOf(name))[index]!.faults[0]!;
    const mended = passes.map((pass) => (pass.index === index ? { ...pass, remedies: [remedy!] } : pass));
    expect(faultsIn(mended)[index]!.faults).toEqual([]);
  });

  it('of a clip is not asked for again by a later pass with the same old length', async () => {
    const passes = await passesOf(scenario('m-142-clip-not-entered'));
    const again = { ...passes[2]!, index: 3 };
    const found = faultsIn([...passes, again]);
    expect(found[2]!.faults).toMatchObject([{ kind: 'clip', grade: 'named' }]);
    expect(found[2]!.faults[0]!.orElse).toBeUndefined();
    expect(found[3]!.faults).toEqual([]);
  });
});

it('gives the same answer to passes with their readings in another order', async () => {
  const passes = await passesOf(sample('zero'));
  const turned = passes.map((pass) => ({ ...pass, readings: [...pass.readings].reverse() }));
  const told = (found: readonly PassFaults[]) =>
    found.map(({ faults }) => faults.map(({ kind, blade, grade }) => [kind, blade, grade]));
  expect(told(faultsIn(turned))).toEqual(told(await faultsOf(sample('zero'))));
});
