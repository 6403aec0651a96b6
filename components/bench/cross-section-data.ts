import { BLADES } from '../../shared/blade.ts';
import type { BenchedReed } from '../../src/answers/benched-reed.ts';
import { thicknessMap } from '../../src/figures/surface-map.ts';
import type { CrossSectionData } from '../charts/chart-data.ts';

const ACROSS = Array.from({ length: 41 }, (_, i) => -1 + i / 20);
/** Where numbers are written: the usual stations. */
const NUMBERED = [-0.8, -0.4, 0, 0.4, 0.8];

/** Both blades of a reed after a pass, cut across at a distance from the tip. */
export function crossSection(benched: BenchedReed, pass: number, fromTipMm: number): CrossSectionData {
  const model = benched.model!;
  const read = BLADES.filter((blade) => model.blades[blade]);
  const sectionOf = (blade: (typeof BLADES)[number], us: readonly number[]) =>
    thicknessMap(model, blade, pass, { ysMm: [fromTipMm], us });
  return {
    fromTipMm,
    widthMm: 2 * benched.assembled.passes[pass]!.halfWidthMm(fromTipMm),
    edges: Object.fromEntries(
      read.map((blade) => [blade, { across: ACROSS, thicknessMm: sectionOf(blade, ACROSS).valuesMm }]),
    ),
    numbers: Object.fromEntries(
      read.map((blade) => {
        const { valuesMm, uMm } = sectionOf(blade, NUMBERED);
        return [blade, NUMBERED.map((across, k) => ({ across, valueMm: valuesMm[k]!, uMm: uMm[k]! }))];
      }),
    ),
  };
}
