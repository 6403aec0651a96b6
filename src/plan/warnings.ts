import { evenness } from '../answers/even.ts';
import { figuresOf } from '../answers/record/reed-figures.ts';
import { isMeasurable, listed, placeWords, sentence } from '../words/figure-words.ts';
import { CORNERS_ZONE, HEART_ZONE } from '../blade/zone-meanings.ts';
import { isInZone } from '../blade/zones.ts';
import type { NearFloor } from '../answers/standing-readings.ts';
import { placeOnBlade } from '../answers/answer-words.ts';
import { zonesAt, type ReedAtPass } from '../answers/fitted-reed.ts';
import { USUAL_CANE, type OriginalCane } from '../cane/original-cane.ts';
import { estimate, sumOfPlaces } from '../figures/functional.ts';
import { BLADES } from '../../shared/blade.ts';
import {
  amountText,
  bareAmount,
  COVERAGE,
  numberText,
  withUnit,
  type NumberFormat,
} from '../words/format.ts';
import type { Done } from './meant-and-done.ts';

/** Something to mind before the next stroke, the gravest first. */
export interface Warning {
  readonly about: 'cane' | 'under floor' | 'more than meant' | 'near floor' | 'heart' | 'tip';
  readonly words: string;
}

export interface WarningInput {
  readonly own: ReedAtPass;
  readonly cane?: OriginalCane;
  /** What the last plan meant and what was done. */
  readonly done?: readonly Done[];
  readonly writing: NumberFormat;
}

/** What matters before the next stroke. An untroubled reed has none. */
export function warningsOn(input: WarningInput): Warning[] {
  const { near } = figuresOf(input.own);
  return [
    ...caneWarning(input),
    ...underFloor(input, near),
    ...moreThanMeant(input),
    ...nearFloor(input, near),
    ...heartShare(input),
    ...unevenTip(input),
  ];
}

/** A side difference larger than this is the cane's. Common practice, no source. */
const SIDE_MM = 0.02;

function caneWarning({ own, writing }: WarningInput): Warning[] {
  const zones = evenness(figuresOf(own))
    .map(({ title, balance: { side } }) => ({ title, ...side }))
    .filter((side) => isMeasurable(side) && Math.abs(side.valueMm) > SIDE_MM)
    .sort((a, b) => Math.abs(b.valueMm) - Math.abs(a.valueMm));
  const [most] = zones;
  if (!most || zones.filter(({ valueMm }) => valueMm * most.valueMm > 0).length < 2) return [];
  const [thick, thin] = most.valueMm > 0 ? [1, 2] : [2, 1];
  return [
    {
      about: 'cane',
      words: `Side ${thick} is thicker than side ${thin} on both blades, by ${amountText(most.valueMm, writing)} at the ${most.title.toLowerCase()}: the gouge, the shape or the tie did that, and scraping evenly does not cure it.`,
    },
  ];
}

/** Closer than half a step of a usual dial is at the floor, mm. */
export const AT_FLOOR_MM = 0.0025;

function zoneTitles({ own: { benched, pass } }: WarningInput, near: readonly NearFloor[]): string[] {
  const zones = zonesAt(benched, pass);
  const titles = near.flatMap(({ reading: { fromTipMm, across } }) => {
    const zone = zones.find((one) => isInZone(one, fromTipMm, across));
    return zone ? [zone.title.toLowerCase()] : [];
  });
  return [...new Set(titles)];
}

function underFloor(input: WarningInput, near: readonly NearFloor[]): Warning[] {
  const under = near.filter(({ marginMm }) => marginMm < -AT_FLOOR_MM);
  if (under.length === 0) return [];
  const titles = zoneTitles(input, under);
  const where = titles.length > 0 ? listed(titles) : 'some places';
  return [
    {
      about: 'under floor',
      words: `${sentence(where)}: ${under.length === 1 ? 'one reading is' : `${under.length} readings are`} under the floor, by ${amountText(under[0]!.marginMm, input.writing)} at most. That cannot be put back.`,
    },
  ];
}

function nearFloor({ own, writing }: WarningInput, near: readonly NearFloor[]): Warning[] {
  const [first, ...rest] = near.filter(({ marginMm }) => marginMm >= -AT_FLOOR_MM);
  if (!first) return [];
  const { reading, marginMm } = first;
  const where = placeOnBlade(
    zonesAt(own.benched, own.pass),
    reading.blade,
    reading.fromTipMm,
    reading.across,
  );
  const above =
    marginMm < AT_FLOOR_MM ? 'is at its floor' : `is ${amountText(marginMm, writing)} above its floor`;
  const more = rest.length > 0 ? `, and ${rest.length} more are near theirs` : '';
  return [
    { about: 'near floor', words: `${where} ${above} at ${placeWords(reading.fromTipMm, writing)}${more}.` },
  ];
}

function moreThanMeant({ done = [], writing }: WarningInput): Warning[] {
  const more = done.filter(({ verdict }) => verdict === 'more');
  if (more.length === 0) return [];
  const words = more.map(
    ({ blade, title, meantMm, done: { valueMm } }) =>
      `${blade}’s ${title.toLowerCase()} lost ${bareAmount(valueMm, writing)} where ${amountText(meantMm, writing)} was meant`,
  );
  return [{ about: 'more than meant', words: `More went than was meant: ${listed(words)}.` }];
}

/** The heart's middle is usually this share of the gouge or more. Common practice, no source. */
const HEART_SHARE = 0.75;

function heartShare({ own: { benched, pass }, cane = USUAL_CANE, writing }: WarningInput): Warning[] {
  const { style, frame } = benched.assembled;
  const model = benched.model!;
  if (!style.zones.some(({ name }) => name === HEART_ZONE)) return [];
  const middleMm = (frame.lengths.tipMm + frame.lengths.heartEndMm) / 2 + 0.5;
  const blades = BLADES.filter((blade) => model.blades[blade]);
  const places = blades.map((blade) => ({
    ...{ blade, pass, fromTipMm: middleMm, across: 0 },
    factor: 1 / blades.length,
  }));
  const heart = estimate(model, sumOfPlaces(model, places));
  const { valueMm: whole } = cane.thicknessAt({ blade: 'A', across: 0, halfWidthMm: 1 });
  if (heart.valueMm + COVERAGE * heart.uMm >= HEART_SHARE * whole) return [];
  const percent = (share: number) => withUnit(numberText(100 * share, 0, writing), '%');
  return [
    {
      about: 'heart',
      words: `The heart is ${percent(heart.valueMm / whole)} of ${cane.from === 'readings' ? 'its gouge' : 'a usual gouge'}; less than ${percent(HEART_SHARE)} is thin for it (common practice, no source).`,
    },
  ];
}

/** Corners that differ by more than this are heard. Common practice, no source. */
const CORNERS_MM = 0.01;

function unevenTip({ own, writing }: WarningInput): Warning[] {
  const corners = evenness(figuresOf(own)).find(({ name }) => name === CORNERS_ZONE)?.balance;
  const [worst] = Object.values(corners ?? {})
    .filter((contrast) => isMeasurable(contrast) && Math.abs(contrast.valueMm) > CORNERS_MM)
    .sort((a, b) => Math.abs(b.valueMm) - Math.abs(a.valueMm));
  return worst
    ? [
        {
          about: 'tip',
          words: `The corners of the tip are no longer even: they differ by ${amountText(worst.valueMm, writing)}.`,
        },
      ]
    : [];
}
