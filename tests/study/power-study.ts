import { BLADES, type Blade } from '../../shared/blade.ts';
import { takenOff } from '../../src/answers/taken-off.ts';
import { isInZone } from '../../src/blade/zones.ts';
import { findFaults } from '../../src/faults/find-faults.ts';
import { faultOptions, judgedPasses } from '../../src/faults/judged-passes.ts';
import { whileOpen } from '../../src/faults/open-questions.ts';
import { measurable } from '../../src/figures/measurable.ts';
import { zoneArea } from '../../src/figures/zone-mean.ts';
import { unreadBetween } from '../../src/figures/unread.ts';
import { assembleReed } from '../../src/reed/assemble.ts';
import { fitReed } from '../../src/surface/fit-reed.ts';
import type { FitPass } from '../../src/surface/reed-model.ts';
import { HELD_FAMILIES } from '../generator/families.ts';
import { familyReed, FAMILY_GAUGES } from '../generator/family-reed.ts';

/** How much of what went is seen on the maps of Taken off, and how often one shows what did not go. */
export interface Power {
  /** Places that lost more than 15 µm, were read, and lie within nine tenths of the width. */
  places: number;
  /** Of these, coloured by themselves. */
  byPlace: number;
  /** In a coloured place, patch or zone. */
  byAny: number;
  /** Maps of one blade and pass; with a place or a zone coloured that lost nothing; with growth. */
  maps: number;
  falseMaps: number;
  grownMaps: number;
}

const MUCH_MM = 0.015;
/** What counts as nothing: of a place, and of the mean of a zone, mm. */
const NOTHING_MM = { place: 0.0002, zone: 0.0003 };
const WITHIN = 0.9;

export const noPower = (): Power => ({
  ...{ places: 0, byPlace: 0, byAny: 0 },
  ...{ maps: 0, falseMaps: 0, grownMaps: 0 },
});

/** Loss since the pass before, at a distance from the later pass's tip. */
type Removed = (blade: Blade, pass: number, fromTipMm: number, across: number) => number;

/** Takes passes through the bench as the report does, and adds what their maps show. */
export function addPower(power: Power, passes: readonly FitPass[], stepMm: number, removedMm: Removed): void {
  const documents = passes.map(({ index, overallLengthMm, readings }) => ({
    ...{ index, overallLengthMm, threadMm: 47, gaugeStepMm: stepMm, remedies: [] },
    readings: readings.map(({ blade, fromTipMm, across, thicknessMm }) => ({
      ...{ blade, fromTipMm, across, thicknessMm, repeat: 0 },
      ...({ flag: 'ok', role: 'station' } as const),
    })),
  }));
  const reed = { label: 'invented', styleId: 'long-scrape' };
  const halfWidthMm = passes[0]!.halfWidthMm;
  const assembled = assembleReed({ reed, passes: documents, halfWidthMm });
  const found = findFaults(judgedPasses(assembled, documents), faultOptions(assembled));
  const open = whileOpen(assembled.passes, found, assembled.options);
  const figured = { reed, assembled, model: fitReed(open.passes, open.options), found };
  for (let after = 1; after < passes.length; after++) {
    const pair = { before: after - 1, after };
    const taken = takenOff(figured, pair);
    for (const blade of BLADES) {
      const map = taken.maps[blade];
      if (!map) continue;
      const [sure, amid] = [measurable(map), taken.between[blade]!];
      const lostZones = taken.lostZones[blade]!;
      const unread = unreadBetween(assembled.passes, pair, blade);
      let [isFalse, isGrown] = [false, false];
      map.valuesMm.forEach((valueMm, i) => {
        const [y, u] = [map.ysMm[Math.floor(i / map.us.length)]!, map.us[i % map.us.length]!];
        const lostMm = removedMm(blade, after, y, u);
        if (sure[i] === 1) {
          if (valueMm < 0) isGrown = true;
          else if (lostMm < NOTHING_MM.place) isFalse = true;
        }
        if (lostMm <= MUCH_MM || Math.abs(u) > WITHIN || unread(y, u) > 0.5) return;
        power.places += 1;
        power.byPlace += sure[i]!;
        power.byAny += Number(
          sure[i] === 1 || amid[i] === 1 || lostZones.some((zone) => isInZone(zone, y, u)),
        );
      });
      isFalse ||= lostZones.some((zone) => {
        const { nodes, areaMm2 } = zoneArea(zone, assembled.passes[after]!);
        const meanMm =
          nodes.reduce((sum, { x, y, area }) => sum + area * removedMm(blade, after, x, y), 0) / areaMm2;
        return meanMm < NOTHING_MM.zone;
      });
      power.maps += 1;
      power.falseMaps += Number(isFalse);
      power.grownMaps += Number(isGrown);
    }
  }
}

const sum = (a: Power, b: Power): Power => ({
  places: a.places + b.places,
  byPlace: a.byPlace + b.byPlace,
  byAny: a.byAny + b.byAny,
  maps: a.maps + b.maps,
  falseMaps: a.falseMaps + b.falseMaps,
  grownMaps: a.grownMaps + b.grownMaps,
});

/** Reeds of families that surfaces were not tuned on, gauge by gauge and hand by hand. */
export function studyPower(reedsOfEach: number, firstSeed: number): Map<string, Power> {
  const rows = new Map<string, Power>();
  let seed = firstSeed;
  for (const family of HELD_FAMILIES)
    for (const extent of ['full', 'ragged', 'half'] as const)
      for (const handMm of [0.05, 0.15, 0.25])
        for (const gauge of ['dial', 'fine'] as const)
          for (let k = 0; k < reedsOfEach; k++) {
            const reed = familyReed({ family, extent, handMm, gauge, seed: seed++ });
            const own = noPower();
            addPower(own, reed.passes, FAMILY_GAUGES[gauge].stepMm, reed.removedMm);
            for (const name of [`${gauge}, hand ${handMm} mm`, extent, 'all'])
              rows.set(name, sum(rows.get(name) ?? noPower(), own));
          }
  return rows;
}
