import { BLADES, type Blade } from '../../shared/blade.ts';
import { pointFunctional, valueMm } from '../../src/figures/functional.ts';
import { fitReed } from '../../src/surface/fit-reed.ts';
import type { FitReading } from '../../src/surface/reed-model.ts';
import { familyReed, FAMILY_GAUGES, type FamilySettings } from '../generator/family-reed.ts';

/** Two full passes of every family that nothing was tuned on, by a dial and by a fine gauge, hands in turn. */
const FAMILIES = ['place', 'spine', 'rails', 'thick', 'thin', 'soft bark'] as const;
const HANDS_MM = [0.05, 0.15, 0.25];
export const TENSOR_CASES: readonly FamilySettings[] = FAMILIES.flatMap((family, i) =>
  (['dial', 'fine'] as const).map((gauge, j) => ({
    ...({ family, gauge, extent: 'full', count: 2 } as const),
    handMm: HANDS_MM[(i + j) % HANDS_MM.length]!,
    seed: 993_001 + 2 * i + j,
  })),
);

/** Places of the heart, mm from the tip and across. */
export const HEART = [6, 6.5, 7, 7.5, 8, 8.5, 9, 9.5, 10].flatMap((y) =>
  [-0.8, -0.6, -0.4, -0.2, 0, 0.2, 0.4, 0.6, 0.8].map((u) => [y, u] as const),
);

/** One blade after one pass: what was read of it, and the truth at the places of the heart. */
export interface TensorBlade {
  readonly blade: Blade;
  readonly pass: number;
  readonly readings: readonly FitReading[];
  readonly truthMm: readonly number[];
}

export function tensorBlades(settings: FamilySettings): TensorBlade[] {
  const reed = familyReed(settings);
  return reed.passes.flatMap(({ readings }, pass) =>
    BLADES.map((blade) => ({
      ...{ blade, pass },
      readings: readings.filter((reading) => reading.blade === blade),
      truthMm: HEART.map(([y, u]) => reed.thicknessMm(blade, pass, y, u)),
    })),
  );
}

/** Sums of squared errors at the heart by the bench: of the first pass from itself alone, of the second from both. */
export function ownSquaresMm2(settings: FamilySettings): [first: number, second: number] {
  const { passes } = familyReed(settings);
  const { stepMm } = FAMILY_GAUGES[settings.gauge];
  const models = passes.map((_, pass) => fitReed(passes.slice(0, pass + 1), { stepMm }));
  const sums: [number, number] = [0, 0];
  for (const { blade, pass, truthMm } of tensorBlades(settings)) {
    const model = models[pass]!;
    HEART.forEach(([fromTipMm, across], k) => {
      const found = valueMm(model, pointFunctional(model, { blade, pass, fromTipMm, across }));
      sums[pass]! += (found - truthMm[k]!) ** 2;
    });
  }
  return sums;
}
