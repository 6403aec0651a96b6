import type { Blade } from '../../shared/blade.ts';
import type { JudgedPass } from '../../src/faults/explanation.ts';
import type { FitReading } from '../../src/surface/reed-model.ts';
import { rounded, type GeneratedReed } from './generated-reed.ts';

export const PLANTED = [
  'zero',
  'shifted',
  'clip',
  'swapped',
  'mirrored both',
  'mirrored A',
  'mirrored B',
] as const;
export type Planted = (typeof PLANTED)[number];

/** mm; printed with every study. */
export const PLANTED_SIZE = { zeroMm: 0.02, shiftMm: 0.5, clipMm: 0.3 } as const;

/** A reed with its last pass as a maker would have written it with a fault. */
export function withFault(reed: GeneratedReed, planted: Planted): readonly JudgedPass[] {
  return [...reed.passes.slice(0, -1), lastWithFault(reed, planted)];
}

/** That pass alone. */
export function lastWithFault(reed: GeneratedReed, planted: Planted): JudgedPass {
  const last = reed.passes.at(-1)!;
  return { ...last, readings: faulty(last, reed, planted) };
}

function faulty(pass: JudgedPass, reed: GeneratedReed, planted: Planted): readonly FitReading[] {
  switch (planted) {
    case 'zero':
      return pass.readings.map((r) => ({ ...r, thicknessMm: r.thicknessMm + PLANTED_SIZE.zeroMm }));
    case 'shifted':
      return pass.readings.map((r) => elsewhere(r, pass, reed, PLANTED_SIZE.shiftMm));
    case 'clip':
      return pass.readings.map((r) => elsewhere(r, pass, reed, PLANTED_SIZE.clipMm));
    case 'swapped':
      return pass.readings.map((r) => ({ ...r, blade: r.blade === 'A' ? 'B' : 'A' }));
    default: {
      const blades = mirroredBlades(planted);
      return pass.readings.map((r) => (blades.includes(r.blade) ? { ...r, across: 0 - r.across } : r));
    }
  }
}

function mirroredBlades(planted: Planted): readonly Blade[] {
  return planted === 'mirrored both' ? ['A', 'B'] : [planted === 'mirrored A' ? 'A' : 'B'];
}

/** A reading with its own noise, taken nearer the cork end than it says. */
function elsewhere(r: FitReading, pass: JudgedPass, reed: GeneratedReed, byMm: number): FitReading {
  const cane = reed.truth.at(-1)!;
  const z = pass.overallLengthMm - r.fromTipMm;
  const change = cane(r.blade, z - byMm, r.across) - cane(r.blade, z, r.across);
  return { ...r, thicknessMm: rounded(r.thicknessMm + change) };
}

/** By how much a labelling differs from the truth behind the blend, root mean square, mm: what there is to find. */
export function labellingSizeMm(reed: GeneratedReed, planted: Planted): number {
  const cane = reed.truth.at(-1)!;
  const { overallLengthMm } = reed.passes.at(-1)!;
  const rows = [6, 8, 10, 12, 14, 16, 18];
  const differences = rows.flatMap((y) => {
    const at = (blade: Blade, u: number) => cane(blade, overallLengthMm - y, u);
    if (planted === 'swapped') return [-0.8, -0.4, 0, 0.4, 0.8].map((u) => at('A', u) - at('B', u));
    return mirroredBlades(planted).flatMap((blade) => [0.4, 0.8].map((u) => at(blade, -u) - at(blade, u)));
  });
  return Math.sqrt(differences.reduce((sum, d) => sum + d * d, 0) / differences.length);
}
