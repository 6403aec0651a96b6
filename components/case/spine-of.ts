import { BLADES } from '../../shared/blade.ts';
import type { FittedReed } from '../../src/answers/fitted-reed.ts';
import { standingReadings } from '../../src/answers/standing-readings.ts';
import { thicknessMap } from '../../src/figures/surface-map.ts';
import { hrefOf } from '../frame/routes.ts';
import type { Spine } from '../passes/spine-multiples.ts';

const POINTS = 41;

/** The spine of a reed after its last pass, as far as it was read; undefined where nothing was. */
export function spineOf(benched: FittedReed): Spine | undefined {
  const { model, reed, assembled } = benched;
  if (!model) return undefined;
  const pass = assembled.passes.length - 1;
  const lastMm = Math.max(0.5, ...standingReadings(benched, pass).map(({ fromTipMm }) => fromTipMm));
  const atMm = Array.from({ length: POINTS }, (_, k) => (lastMm * k) / (POINTS - 1));
  const read = BLADES.filter((blade) => model.blades[blade]);
  return {
    id: reed.id,
    title: reed.label,
    note: reed.favourite ? 'favourite' : `pass ${assembled.passes[pass]!.index}`,
    href: hrefOf({ at: 'bench', reedId: reed.id, question: 'there' }),
    atMm,
    thicknessMm: Object.fromEntries(
      read.map((blade) => [blade, thicknessMap(model, blade, pass, { ysMm: atMm, us: [0] }).valuesMm]),
    ),
  };
}
