import { readFileSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import type { Blade } from '../shared/blade.ts';
import type { FitPass } from '../src/surface/reed-model.ts';

/** What was really there, beside an invented reed's readings. */
export interface SampleTruth {
  reading_noise_mm: number;
  /** Placement along, one standard deviation; a third of it across. */
  position_sd_mm: number;
  rectangles_mm: Record<string, [number, number]>;
  passes: {
    index: number;
    overall_length_mm: number;
    scraped: Record<Blade, [fromTip: number, across: number, along: number, wide: number, deep: number][]>;
    rectangle_means_mm: Record<string, number>;
    samples_mm: { blade: Blade; y: number; u: number; t: number }[];
  }[];
}

/** From the repository's root, so that bundled benchmarks find it too. */
const FOLDER = pathToFileURL('tests/samples/passes/');

/** An invented reed with its truth, read as plainly as can be, so that the checks do not lean on the importer. */
export function readSample(name: string): { passes: FitPass[]; truth: SampleTruth } {
  const truth = JSON.parse(readFileSync(new URL(`sample-${name}.truth.json`, FOLDER), 'utf8')) as SampleTruth;
  const [header, ...lines] = readFileSync(new URL(`sample-${name}.csv`, FOLDER), 'utf8')
    .trim()
    .split(/\r?\n/);
  const columns = header!.split(',');
  const rows = lines.map((line) => Object.fromEntries(line.split(',').map((cell, i) => [columns[i]!, cell])));
  const passes = truth.passes.map(({ index, overall_length_mm }) => ({
    index,
    overallLengthMm: overall_length_mm,
    bladeLengthMm: 23,
    halfWidthMm: (fromTipMm: number) => (7 - 0.09 * fromTipMm) / 2,
    readings: rows
      .filter((row) => Number(row['pass']) === index && row['thickness_mm'] !== '')
      .map((row) => ({
        blade: row['blade'] as Blade,
        fromTipMm: Number(row['from_tip_mm']),
        across: Number(row['across']),
        thicknessMm: Number(row['thickness_mm']),
        repeats: 1,
        noiseFactor: 1,
      })),
  }));
  return { passes, truth };
}
