import { existsSync, readFileSync, readdirSync } from 'node:fs';
import { expect, it } from 'vitest';
import { plantedFaults, withFault } from '../../../scripts/mutants/planted.mjs';
import { wilson } from '../../../scripts/mutants/wilson.mjs';

it.each([
  // Newcombe 1998, doi 10.1002/(SICI)1097-0258(19980430)17:8<857::AID-SIM777>3.0.CO;2-E, table I, method 3. From memory.
  [81, 263, 0.2553, 0.3662],
  [15, 148, 0.0624, 0.1605],
  [0, 20, 0, 0.1611],
  [1, 29, 0.0061, 0.1718],
])('gives the published interval of %i out of %i', (hits, count, lower, upper) => {
  const interval = wilson(hits, count);
  expect(interval.share).toBe(hits / count);
  expect(Math.abs(interval.lower - lower)).toBeLessThanOrEqual(0.00005);
  expect(Math.abs(interval.upper - upper)).toBeLessThanOrEqual(0.00005);
});

it('names folders of src and folders of tests that are there', () => {
  const folders = JSON.parse(readFileSync('tests/mutants/folders.json', 'utf8')) as Record<
    string,
    { floor: number; tests: string[] }
  >;
  for (const [name, { floor, tests }] of Object.entries(folders)) {
    expect(readdirSync(`src/${name}`).length, name).toBeGreaterThan(0);
    expect(floor).toBeGreaterThanOrEqual(0);
    expect(floor).toBeLessThan(1);
    for (const test of tests)
      expect(readdirSync(test.slice(0, test.lastIndexOf('/'))).length).toBeGreaterThan(0);
  }
});

it('finds the place of every planted fault, once, and the tests that notice it', () => {
  for (const planted of plantedFaults()) {
    expect(withFault(planted)).toContain(planted.to);
    expect(existsSync(planted.test), planted.test).toBe(true);
  }
});

it('finds the code of every fault that changes nothing, and a reason', () => {
  const equivalent = JSON.parse(readFileSync('tests/mutants/equivalent.json', 'utf8')) as Record<
    string,
    string
  >[];
  for (const { file, code, becomes, why } of equivalent) {
    expect(readFileSync(file!, 'utf8').split(code!)).toHaveLength(2);
    expect(code).not.toContain(becomes);
    expect(why).toMatch(/^[A-Z].{20,}\.$/);
  }
});
