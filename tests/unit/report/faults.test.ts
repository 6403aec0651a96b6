import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { main } from '../../../src/report/cli.ts';
import type { ReedReport } from '../../../src/report/reed-report.ts';

const samples = new URL('../../samples/', import.meta.url);

async function run(...args: string[]): Promise<string> {
  let out = '';
  await main(args, { out: (text) => (out += text), err: (text) => (out += text) });
  return out;
}

const path = (name: string) => fileURLToPath(new URL(name, samples));

it('gives faults with their remedies, and keeps readings known to be slips out of every figure, saying so', async () => {
  const width = ['--width', '7.0:0.09', '--width-from', 'tip', '--rectangle', 'middle:5.5:8.5'];
  const json = await run(path('passes/sample-typo.csv'), ...width, '--json');
  const { passes } = (JSON.parse(json) as { reeds: ReedReport[] }).reeds[0]!;
  expect(passes.map(({ faults }) => faults.map(({ kind, blade, grade }) => [kind, blade, grade]))).toEqual([
    [],
    [['digits', 'A', 'named']],
    [['digits', 'B', 'named']],
  ]);
  expect(passes[1]!.setAside).toEqual([{ blade: 'A', fromTipMm: 8, across: 0.4, thicknessMm: 0.34 }]);
  const truth = JSON.parse(readFileSync(new URL('passes/sample-typo.truth.json', samples), 'utf8')) as {
    passes: { rectangle_means_mm: Record<string, number> }[];
  };
  passes.forEach(({ blades }, i) => {
    const { meanMm, uMm } = blades.A!.zones['middle']!;
    expect(Math.abs(meanMm - truth.passes[i]!.rectangle_means_mm['A.heart']!)).toBeLessThan(3 * uMm);
    // The files were made with 0.0049; a slip taken for scatter would add to it.
    expect(blades.A!.noiseMm).toBeLessThan(0.0065);
  });
});

it('says in the text what is wrong, what else it may be, and what to read again', async () => {
  const clip = await run(path('scenario/m-142-clip-not-entered.csv'));
  expect(clip).toContain('Fault named: clip, both blades (or else: shifted). The slopes read as if 0.2');
  const slip = await run(path('scenario/m-142-digits-turned.csv'));
  expect(slip).toContain('Set aside until it is read again: B 5 mm, -0.4, 53');
  const dig = await run(path('scenario/m-142.csv'));
  expect(dig).toContain('reads 35 where 42 was expected: a dig, or a slip? Read this place again');
  expect(dig).not.toContain('Fault');
});
