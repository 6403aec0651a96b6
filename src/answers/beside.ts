import { BLADES, type Blade } from '../../shared/blade.ts';
import { centreLine, crossing, CROSSINGS_MM } from '../figures/crossing.ts';
import { measurable } from '../figures/measurable.ts';
import { mapDifference, mapGrid, thicknessMap, type FigureMap } from '../figures/surface-map.ts';
import { zoneFigures } from '../figures/zone-figures.ts';
import type { Estimate } from '../surface/reed-model.ts';
import { zonesAt, type ReedAtPass } from './benched-reed.ts';
import { amountText, bareAmount, type Writing } from '../report/format.ts';
import { apartWords, isMeasurable, listed } from './figure-words.ts';
import { BLEND_MM, type Answer } from './there-now.ts';

export interface BesideRow {
  readonly name: string;
  readonly title: string;
  readonly own: Estimate;
  readonly other: Estimate;
  readonly difference: Estimate;
}

export interface CrossingRow {
  readonly thicknessMm: number;
  readonly own?: Estimate;
  readonly other?: Estimate;
}

/** One reed beside another, placed from the tip. Excess is positive: it can be scraped. Lack cannot be put back. */
export interface Beside {
  readonly rows: readonly BesideRow[];
  readonly crossings: readonly CrossingRow[];
  readonly maps: Readonly<Partial<Record<Blade, FigureMap>>>;
  /** Share of the blade that is measurably over, and under. */
  readonly overShare: number;
  readonly underShare: number;
  /** What else differs, in words: it may matter more than thickness. */
  readonly notes: readonly string[];
}

const ALONG = 61;
const ACROSS = 31;

const difference = (a: Estimate, b: Estimate): Estimate => ({
  valueMm: a.valueMm - b.valueMm,
  uMm: Math.hypot(a.uMm, b.uMm),
});

/** Compares two reeds, each at a pass, with all zones hung from the tip. */
export function beside(own: ReedAtPass, other: ReedAtPass): Beside {
  const [model, example] = [own.benched.model!, other.benched.model!];
  const zones = zonesAt(own.benched, own.pass, 'tip');
  const rows = zones.flatMap((zone) => {
    const mine = zoneFigures(model, own.pass, zone).mean;
    const theirs = zoneFigures(example, other.pass, zone).mean;
    return mine && theirs
      ? [
          {
            name: zone.name,
            title: zone.title,
            own: mine,
            other: theirs,
            difference: difference(mine, theirs),
          },
        ]
      : [];
  });
  const lengthMm = Math.min(model.passes[own.pass]!.bladeLengthMm, example.passes[other.pass]!.bladeLengthMm);
  const grid = mapGrid(lengthMm, ALONG, ACROSS);
  const maps: Partial<Record<Blade, FigureMap>> = {};
  for (const blade of BLADES.filter((name) => model.blades[name] && example.blades[name])) {
    maps[blade] = mapDifference(
      thicknessMap(model, blade, own.pass, grid),
      thicknessMap(example, blade, other.pass, grid),
    );
  }
  const crossings = CROSSINGS_MM.map((thicknessMm) => {
    const mine = crossing(model, own.pass, centreLine(model), thicknessMm);
    const theirs = crossing(example, other.pass, centreLine(example), thicknessMm);
    return { thicknessMm, ...(mine && { own: mine }), ...(theirs && { other: theirs }) };
  });
  return { rows, crossings, maps, ...shares(Object.values(maps)), notes: differences(own, other) };
}

function shares(maps: readonly FigureMap[]) {
  let [over, under, all] = [0, 0, 0];
  for (const map of maps) {
    measurable(map).forEach((sure, i) => {
      all += 1;
      if (sure === 1 && map.valuesMm[i]! > 0) over += 1;
      if (sure === 1 && map.valuesMm[i]! < 0) under += 1;
    });
  }
  return { overShare: all > 0 ? over / all : 0, underShare: all > 0 ? under / all : 0 };
}

function differences(
  { benched: { reed: a, assembled } }: ReedAtPass,
  { benched: { reed: b, assembled: other } }: ReedAtPass,
) {
  const notes: string[] = [];
  if (assembled.style.key !== other.style.key)
    notes.push(`Another style: ${other.style.name.toLowerCase()}.`);
  if (a.lotId !== b.lotId) notes.push('Another lot of cane.');
  if (a.shapeId !== b.shapeId) notes.push('Another shape.');
  if (a.staple?.lengthMm !== b.staple?.lengthMm) notes.push('Another staple.');
  return notes;
}

/** The answer to "How far from the one I love?" */
export function sayBeside(compared: Beside, otherLabel: string, writing: Writing): Answer {
  const sure = compared.rows.filter(({ difference: apart }) => isMeasurable(apart));
  const [over, under] = [1, -1].map((sign) =>
    sure
      .filter(({ difference: apart }) => sign * apart.valueMm > 0)
      .sort((a, b) => sign * (b.difference.valueMm - a.difference.valueMm))
      .slice(0, 3),
  );
  const words = (rows: readonly BesideRow[]) =>
    listed(
      rows.map(
        ({ title, difference: apart }, i) =>
          `${title.toLowerCase()} by ${(i === 0 ? amountText : bareAmount)(apart.valueMm, writing)}`,
      ),
    );
  const blend = sayBlend(compared, otherLabel, writing);
  const thicker =
    sure.length === 0
      ? `No zone differs from ${otherLabel} by more than its doubt.`
      : over!.length > 0
        ? `Thicker than ${otherLabel}: ${words(over!)}.`
        : `No zone is thicker than on ${otherLabel}.`;
  return {
    say: [blend, thicker].filter((part) => part !== undefined).join(' '),
    ...(under!.length > 0 && { mind: `Thinner, which cannot be put back: ${words(under!)}.` }),
    ...(compared.notes.length > 0 && { aside: compared.notes.join(' ') }),
  };
}

function sayBlend({ crossings }: Beside, otherLabel: string, writing: Writing): string | undefined {
  const row = crossings.find(({ thicknessMm }) => thicknessMm === BLEND_MM);
  const apart = row?.own && row.other && difference(row.own, row.other);
  if (!apart || !isMeasurable(apart)) return undefined;
  const way = apart.valueMm < 0 ? 'nearer the tip' : 'further from the tip';
  return `The centre passes ${amountText(BLEND_MM, writing)} ${apartWords(apart.valueMm, writing)} ${way} than on ${otherLabel}.`;
}
