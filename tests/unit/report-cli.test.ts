import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';
import type { PassReport, ReedReport } from '../../src/report/reed-report.ts';
import { main } from '../../src/report/cli.ts';

const samples = fileURLToPath(new URL('../samples/', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'report-'));
afterAll(() => rmSync(folder, { recursive: true }));

async function run(...args: string[]) {
  let [out, err] = ['', ''];
  const code = await main(args, { out: (text) => (out += text), err: (text) => (err += text) });
  return { code, out, err };
}

function file(name: string, content: string | Uint8Array): string {
  const path = join(folder, name);
  writeFileSync(path, content);
  return path;
}

const reported = new Map<string, Promise<ReedReport>>();

/** The report of some arguments as JSON; one that was asked for before is not made again. */
function reportOf(...args: string[]): Promise<ReedReport> {
  const key = args.join(' ');
  const report = reported.get(key) ?? freshReportOf(args);
  reported.set(key, report);
  return report;
}

async function freshReportOf(args: readonly string[]): Promise<ReedReport> {
  const { out, err, code } = await run(...args, '--json');
  expect([err, code]).toEqual(['', 0]);
  const { reeds } = JSON.parse(out) as { reeds: ReedReport[] };
  return reeds[0]!;
}

describe('the record', () => {
  it('is the JSON: every figure by its id, the same as under the documented names', async () => {
    const { passes } = (await reportOf(`${samples}scenario/m-142.csv`)) as unknown as {
      passes: (PassReport & { figures: Record<string, { value: number; u: number; quantity: string }> })[];
    };
    const { figures, blades, balance, removed, ratios } = passes[3]!;
    const heart = blades.B!.zones.heart!;
    expect(figures['zone.heart.B']).toMatchObject({
      value: heart.meanMm,
      u: heart.uMm,
      quantity: 'thickness',
    });
    expect(figures['zone.heart.hand']).toMatchObject({
      value: balance.heart!.hand.valueMm,
      u: balance.heart!.hand.uMm,
    });
    expect(figures['taken.heart.A']!.value).toBe(removed!.A!.zones.heart!.removedMm);
    expect(figures['believable.heart.A']!.value).toBe(blades.A!.believableMm.heart);
    const { upper, lower, ratio } = ratios[0]!;
    expect(figures[`ratio.${upper}.${lower}.both`]).toMatchObject(ratio);
    // The centre of M-142 passes 0.30 at 3.7 mm by straight interpolation between its readings.
    expect(Math.abs(figures['crossing.0.30']!.value - 3.7)).toBeLessThan(0.1);
    // Widths 7 to 5.9 mm, 20 mm long, two blades of about 0.4 mm: zones overlap nowhere but at the corners.
    const volumes = Object.entries(figures).filter(([id]) => id.endsWith('.volume'));
    const all = volumes.reduce((sum, [, { value }]) => sum + value, 0);
    expect(all).toBeGreaterThan(40);
    expect(all).toBeLessThan(110);
  });
});

const names = ['passes', 'scenario'].flatMap((part) =>
  readdirSync(samples + part)
    .filter((name) => name.endsWith('.csv') && !/^m-142-|^sample-(fine|mirrored|shifted)/.test(name))
    .map((name) => `${part}/${name}`),
);

// Those with one more fault of their own are reported where faults are tested.
describe('every kind of sample file', () => {
  it.each(names)('%s is reported whole, with finite figures', async (name) => {
    const { label, passes } = await reportOf(samples + name);
    expect(label.toLowerCase()).toContain(name.split('/')[1]!.slice(0, 5));
    for (const [i, { blades, balance, ratios, removed, faults }] of passes.entries()) {
      expect(Object.keys(blades)).toEqual(['A', 'B']);
      const means = [blades.A!, blades.B!].flatMap(({ zones }) => Object.values(zones));
      for (const { meanMm, uMm } of means)
        expect(meanMm > 0.02 && meanMm < 0.8 && uMm > 0 && uMm < 0.05).toBe(true);
      expect(Object.keys(balance)).toEqual(Object.keys(blades.A!.zones));
      expect(ratios.length).toBeGreaterThan(2);
      for (const { upper, lower, ratio } of ratios) {
        const mean = (zone: string) => (blades.A!.zones[zone]!.meanMm + blades.B!.zones[zone]!.meanMm) / 2;
        expect(ratio.value).toBeCloseTo(mean(upper) / mean(lower), 4);
        expect(ratio.u > 0 && ratio.u < 0.3).toBe(true);
      }
      expect(removed === undefined).toBe(i === 0);
      expect(Array.isArray(faults)).toBe(true);
    }
  });
});

describe('figures that are asked for', () => {
  it('gives points and rectangles of every pass, by the width that was said', async () => {
    const points = file('points.csv', 'blade;from_tip_mm;across\r\nA;7;0\r\nB;7,5;-0,6\r\n');
    const args = [
      '--at',
      points,
      '--rectangle',
      'middle:5.5:8.5',
      '--width',
      '7.0:0.09',
      '--width-from',
      'tip',
    ];
    const { passes, assumed } = await reportOf(`${samples}passes/sample-zero.csv`, ...args);
    const [first, second] = passes;
    expect(first!.blades.A!.at).toMatchObject([{ fromTipMm: 7, across: 0 }]);
    expect(second!.removed!.B!.at).toMatchObject([{ fromTipMm: 7.5, across: -0.6 }]);
    expect(first!.blades.A!.zones.middle!.meanMm).toBeGreaterThan(0.35);
    expect(assumed.join()).not.toContain('planform');
  });

  it('marks places beyond the outermost readings, and leaves out what is not on the blade', async () => {
    const points = file('edges.csv', 'blade,from_tip_mm,across\nA,10,0\nA,10,0.95\nA,22,0\nA,29,0\n');
    const args = [`${samples}passes/sample-plain.csv`, '--at', points];
    const { passes } = await reportOf(...args);
    const { at } = passes[0]!.blades.A!;
    expect(at.map(({ fromTipMm, beyond }) => [fromTipMm, beyond])).toEqual([
      [10, undefined],
      [10, true],
      [22, true],
    ]);
    expect(at[1]!.uMm).toBeGreaterThan(2 * at[0]!.uMm);
    expect((await run(...args)).out).toMatch(/^ {2}A 22 mm, 0, beyond the outermost readings +\d/m);
  });

  it('says by zone how much a reading must change to be believed', async () => {
    const { passes } = await reportOf(`${samples}passes/sample-clip.csv`);
    const { tip, blend, heart, spine } = passes[0]!.blades.A!.believableMm;
    // This hand finds places to 0.05 mm and its passes tell so: 1.96 sqrt(2) times 0.0049 where it is level, as on the
    // spine, and with 0.05 times 0.13 mm per mm 0.023 on the blend. The heart of this sample begins on its ridge.
    expect(spine).toBeGreaterThan(0.012);
    expect(spine).toBeLessThan(0.025);
    expect(heart).toBeGreaterThan(spine!);
    expect(blend).toBeGreaterThan(heart!);
    expect(blend).toBeGreaterThan(tip!);
    expect(blend).toBeGreaterThan(0.018);
    expect(blend).toBeLessThan(0.035);
  });

  it('says which planform it assumed where none is given', async () => {
    const { out } = await run(`${samples}scenario/k-117.csv`);
    expect(out).toContain(
      'the usual planform of the style, in mm wide at mm from the first tip 7.0 at 0, 6.7 at 5',
    );
  });

  it('prints a table for readers, with 95 % doubts and saying so', async () => {
    const { out, code } = await run(`${samples}scenario/k-117-sheet.csv`);
    expect(code).toBe(0);
    expect(out).toContain(
      'Thicknesses in hundredths of a millimetre; ± is 95 % (1.96 standard uncertainties).',
    );
    expect(out).toMatch(/^K-117$/m);
    // Mean, A and B, each with its doubt, and how far the nearest reading is above its floor.
    expect(out).toMatch(/^ {2}Heart(?: +4\d\.\d +±0\.\d){3} +\d$/m);
    const { passes } = await reportOf(`${samples}scenario/k-117-sheet.csv`);
    const { meanMm, uMm } = passes[0]!.blades.A!.zones.heart!;
    expect(out).toContain(`${(meanMm * 100).toFixed(1)}  ±${(196 * uMm).toFixed(1)}`);
  });

  it('does not report nothing taken, without doubt, from a blade that a pass did not read', async () => {
    const file = `${samples}passes/sample-partial.csv`;
    const { passes } = await reportOf(file);
    expect(passes[1]!.removed!.B).toMatchObject({ notRead: true, countedIn: 2 });
    expect(passes[1]!.removed!.B!.zones.heart!.uMm).toBeGreaterThanOrEqual(0.01);
    expect(passes[2]!.removed!.B).toMatchObject({ since: 0 });
    const { out } = await run(file);
    expect(out).toContain('B was not read in pass 1: what came off it is counted in pass 2.');
    expect(out).toContain('B was last read in pass 0: what came off it counts from there.');
  });

  it.each(['shifted', 'swapped', 'mirrored', 'zero', 'typo', 'plain'])(
    'takes no fault of %s for the noise of the gauge',
    async (name) => {
      const truth = JSON.parse(readFileSync(`${samples}passes/sample-${name}.truth.json`, 'utf8')) as {
        reading_noise_mm: number;
      };
      const { passes } = await reportOf(`${samples}passes/sample-${name}.csv`);
      expect(Math.abs(passes[0]!.blades.A!.noiseMm / truth.reading_noise_mm - 1)).toBeLessThan(0.35);
    },
  );

  it('takes several files of one reed together', async () => {
    const { passes } = await reportOf(
      `${samples}scenario/m-142.csv`,
      `${samples}scenario/m-142-controls.csv`,
    );
    expect(passes).toHaveLength(4);
  });

  it('measures the width from the first tip, or from each pass’s own', async () => {
    const width = ['--width', '7:0.2', '--rectangle', 'all:0:15'];
    const file = `${samples}scenario/m-142.csv`;
    const [first, own] = [
      await reportOf(file, ...width),
      await reportOf(file, ...width, '--width-from', 'tip'),
    ];
    const apart = first.passes.map(({ blades }, i) =>
      Math.abs(blades.A!.zones.all!.meanMm - own.passes[i]!.blades.A!.zones.all!.meanMm),
    );
    // Passes 0 and 1 have the first tip; 2 and 3 lost 0.4 mm. The width weighs the mean, and hardly touches the fit.
    for (const pass of [0, 1]) expect(apart[pass]).toBeLessThan(1e-5);
    for (const pass of [2, 3]) expect(apart[pass]).toBeGreaterThan(1e-4);
  });
});

describe('bad input ends with 2 and a sentence, and nothing is reported', () => {
  const head = 'reed,pass,overall_length_mm,state,blade,from_tip_mm,across,thickness_mm';
  const row = (thickness: string, fromTip = '5') => `K-1,0,70.2,wet,A,${fromTip},0,${thickness}`;
  const lines = (...rows: string[]) => [head, ...rows].join('\n');
  it.each([
    ['empty.csv', '', 'file: The file is empty.'],
    ['binary.csv', new Uint8Array([80, 75, 3, 4, 0, 0, 8, 0]), 'file: The file is not text'],
    [
      'text.csv',
      lines(row('0.4'), row('thick', '6')),
      "line 3, column thickness_mm: 'thick' stands here; expected was a number",
    ],
    [
      'twice.csv',
      lines(row('0.4'), row('0.41')),
      'line 3: Blade A at 5 mm, across 0, is read a second time; the first is line 2.',
    ],
    [
      'thick.csv',
      lines(row('4.3')),
      "line 2, column thickness_mm: '4.3' stands here; expected was a thickness of more than 0 and up to 2 mm.",
    ],
    [
      'unit.csv',
      lines(row('43')),
      "line 2, column thickness_mm: '43' stands here; expected was a thickness of more than 0 and up to 2 mm.",
    ],
    [
      'open.csv',
      'blade,from_tip_mm,across,thickness\nA,5,0,12',
      'Are the thicknesses in hundredths of a millimetre or in thousandths of an inch?',
    ],
    [
      'control.csv',
      `${head},role\n${row('0.5')},control`,
      'K-1: must hold readings of stations, got controls or blanks alone',
    ],
  ])('%s', async (name, content, sentence) => {
    const { code, out, err } = await run(file(name, content));
    expect([code, out]).toEqual([2, '']);
    expect(err).toContain(sentence);
  });

  const sample = `${samples}scenario/k-117.csv`;
  it.each([
    [[], 'FILE.csv: must be given, at least one'],
    [['missing.csv'], 'missing.csv: must be a file that can be read'],
    [[sample, '--colour'], "arguments: Unknown option '--colour'"],
    [[sample, '--rectangle', 'tip:5:2'], '--rectangle: must be NAME:Y0:Y1'],
    [[sample, '--rectangle', 'tip:0'], '--rectangle: must be NAME:Y0:Y1'],
    [[sample, '--width', '7'], '--width: must be W0:TAPER'],
    [[sample, '--width', '7:0.5'], '--width: must be W0:TAPER'],
    [[sample, '--width-from', 'tip'], '--width-from: must come with --width W0:TAPER'],
    [[sample, '--width', '7:0.1', '--width-from', 'cork'], '--width-from: must be tip, got cork'],
    [[sample, '--at', 'missing.csv'], 'missing.csv: must be a file that can be read'],
    [
      [sample, '--at', sample.replace('k-117', 'k-117-sheet')],
      'No column is headed blade or from_tip_mm or across',
    ],
  ])('%j', async (args, sentence) => {
    const { code, out, err } = await run(...args);
    expect([code, out]).toEqual([2, '']);
    expect(err).toContain(sentence);
  });

  it('names the place of a bad point', async () => {
    const points = file('bad-points.csv', 'blade,from_tip_mm,across\nA,5,1.4\n');
    const { err } = await run(sample, '--at', points);
    expect(err).toContain("line 2, column across: '1.4' stands here; expected was a position across");
  });
});

it('explains its arguments', async () => {
  const { code, out } = await run('--help');
  expect([code, out.split('\n')[0]]).toEqual([0, 'npm run report -- FILE.csv [MORE.csv] [options]']);
});
