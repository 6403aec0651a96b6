import { readFileSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import type { Pass } from '../shared/pass.ts';
import type { Reed } from '../shared/reed.ts';
import { benchReed, type FittedReed } from '../src/answers/fitted-reed.ts';

/** From the repository's root, so that bundled studies find it too. */
const FOLDER = pathToFileURL('tests/samples/scenario/');

const fitted = new Map<string, FittedReed>();

/** An invented reed of the scenario on the bench, fitted once for all who ask. */
export function scenarioReed(label: string, styleId = 'long-scrape'): FittedReed {
  const key = `${label} ${styleId}`;
  const reed = fitted.get(key) ?? freshlyFitted(label, styleId);
  fitted.set(key, reed);
  return reed;
}

/** Its documents without the stamps that no figure reads. */
function freshlyFitted(label: string, styleId: string): FittedReed {
  const [header, ...lines] = readFileSync(new URL(`${label.toLowerCase()}.csv`, FOLDER), 'utf8')
    .trim()
    .split(/\r?\n/);
  const columns = header!.split(',');
  const rows = lines.map((line) => Object.fromEntries(line.split(',').map((cell, i) => [columns[i]!, cell])));
  const indices = [...new Set(rows.map((row) => Number(row['pass'])))];
  const passes = indices.map((index) => {
    const own = rows.filter((row) => Number(row['pass']) === index);
    return {
      index,
      overallLengthMm: Number(own[0]!['overall_length_mm']),
      threadMm: 47,
      remedies: [],
      readings: own.map((row) => ({
        blade: row['blade'],
        fromTipMm: Number(row['from_tip_mm']),
        across: Number(row['across']),
        thicknessMm: Number(row['thickness_mm']),
        repeat: 0,
        flag: 'ok',
        role: 'station',
      })),
    } as unknown as Pass;
  });
  return benchReed({ label, styleId } as Reed, passes);
}
