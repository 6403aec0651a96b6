import type { Blade } from '../../shared/blade.ts';
import { floorAt } from '../blade/floors.ts';
import type { PlacedZone } from '../blade/zones.ts';
import { centreLine, crossing } from '../figures/crossing.ts';
import { zoneFigures, type ZoneFigures } from '../figures/zone-figures.ts';
import type { Estimate, FitReading } from '../surface/reed-model.ts';
import { zonesAt, type BenchedReed, type ReedAtPass } from './benched-reed.ts';
import {
  amountText,
  bareAmount,
  COVERAGE,
  distanceText,
  readingText,
  UNIT_WORDS,
  withUnit,
  type Writing,
} from '../words/format.ts';
import {
  acrossWords,
  apartWords,
  countWord,
  isMeasurable,
  listed,
  placeWords,
  sentence,
} from '../words/figure-words.ts';

/** Thickness at which the centre line is said to be in the blend, mm. Common practice, no source. */
export const BLEND_MM = 0.3;
/** A reading this little above its floor, or less, is near it, mm: one and a half steps of a usual dial. */
const NEAR_MM = 0.015;

/** The latest reading of a place, and the pass that it comes from. */
export interface StandingReading extends FitReading {
  readonly pass: number;
}

/** The readings that stand after a pass: its own, and older ones where it read nothing, by place on the cane. */
export function standingReadings(
  { assembled }: Pick<BenchedReed, 'assembled'>,
  pass: number,
): StandingReading[] {
  const standing = new Map<string, StandingReading>();
  for (let at = 0; at <= pass; at++) {
    const { overallLengthMm, readings } = assembled.passes[at]!;
    const toNow = assembled.passes[pass]!.overallLengthMm - overallLengthMm;
    if (at < pass && Math.abs(toNow) > 1e-9) {
      for (const [key, reading] of standing) if (reading.fromTipMm + toNow < 0) standing.delete(key);
    }
    for (const reading of readings) {
      const fromTipMm = reading.fromTipMm + toNow;
      if (fromTipMm < 0) continue;
      dropNear(standing, reading.blade, fromTipMm, reading.across, at);
      standing.set(`${reading.blade} ${fromTipMm.toFixed(3)} ${reading.across} ${at}`, {
        ...reading,
        fromTipMm,
        pass: at,
      });
    }
  }
  return [...standing.values()];
}

/** Older readings this close along and at the same place across give way to a newer one, mm. */
const SAME_PLACE_MM = 0.6;

function dropNear(
  standing: Map<string, StandingReading>,
  blade: Blade,
  y: number,
  u: number,
  pass: number,
): void {
  for (const [key, old] of standing) {
    const near = Math.abs(old.fromTipMm - y) < SAME_PLACE_MM && Math.abs(old.across - u) < 0.2;
    if (old.pass < pass && old.blade === blade && near) standing.delete(key);
  }
}

/** A reading that stands near its floor. */
export interface NearFloor {
  readonly reading: StandingReading;
  readonly floorMm: number;
  readonly marginMm: number;
}

/** Readings near their floors, the nearest first. */
export function nearFloors(benched: BenchedReed, pass: number): NearFloor[] {
  const { floors } = benched.assembled.style;
  return standingReadings(benched, pass)
    .flatMap((reading) => {
      const floorMm = floorAt(floors, reading.fromTipMm, reading.across);
      if (floorMm === undefined) return [];
      const marginMm = reading.thicknessMm - floorMm;
      return marginMm <= NEAR_MM + 1e-9 ? [{ reading, floorMm, marginMm }] : [];
    })
    .sort((a, b) => a.marginMm - b.marginMm);
}

/** A row of the zone table. */
export interface ZoneRow extends ZoneFigures {
  /** The thinnest standing reading of the zone above its floor, mm; absent without a floor or a reading. */
  readonly toFloorMm?: number;
}

export interface ThereNow {
  readonly zones: readonly ZoneRow[];
  readonly blend?: Estimate;
  readonly favouriteBlend?: Estimate;
  readonly near: readonly NearFloor[];
}

/** What there is after a pass. */
export function thereNow(benched: BenchedReed, pass: number, favourite?: ReedAtPass): ThereNow {
  const model = benched.model!;
  const standing = standingReadings(benched, pass);
  const zones = zonesAt(benched, pass).map((zone) => {
    const toFloorMm = leastMargin(benched, zone, standing);
    return { ...zoneFigures(model, pass, zone), ...(toFloorMm !== undefined && { toFloorMm }) };
  });
  const blend = crossing(model, pass, centreLine(model), BLEND_MM);
  const other = favourite?.benched.model;
  const favouriteBlend = other && crossing(other, favourite.pass, centreLine(other), BLEND_MM);
  return {
    zones,
    ...(blend && { blend }),
    ...(favouriteBlend && { favouriteBlend }),
    near: nearFloors(benched, pass),
  };
}

function leastMargin({ assembled }: BenchedReed, zone: PlacedZone, standing: readonly StandingReading[]) {
  const margins = standing
    .filter(({ fromTipMm, across }) => zone.outlines.some((outline) => contains(outline, fromTipMm, across)))
    .flatMap(({ fromTipMm, across, thicknessMm }) => {
      const floor = floorAt(assembled.style.floors, fromTipMm, across);
      return floor === undefined ? [] : [thicknessMm - floor];
    });
  return margins.length === 0 ? undefined : Math.min(...margins);
}

/** Whether a place lies inside an outline. Source: even-odd rule. */
export function contains(outline: readonly (readonly [number, number])[], y: number, u: number): boolean {
  return outline.reduce((inside, [ay, au], i) => {
    const [by, bu] = outline[(i + 1) % outline.length]!;
    const crosses = au > u !== bu > u && y < ay + ((u - au) / (bu - au)) * (by - ay);
    return crosses ? !inside : inside;
  }, false);
}

/** An answer in words: what is sure, and what the maker should not miss. */
export interface Answer {
  readonly say: string;
  readonly mind?: string;
  readonly aside?: string;
}

/** The answer to "What is there, and how sure?" */
export function sayThereNow(
  benched: BenchedReed,
  pass: number,
  now: ThereNow,
  writing: Writing,
  favouriteLabel?: string,
): Answer {
  const mind = sayNearFloor(benched, pass, now.near, writing);
  const aside = sayControls(benched, pass, writing);
  return {
    say: sayBlend(benched, now, writing, favouriteLabel),
    ...(mind && { mind }),
    ...(aside && { aside }),
  };
}

/** What is said to stand where the centre passes the blend's thickness: the blend, in a style that has one. */
function blendStands({ assembled }: BenchedReed, writing: Writing): string {
  const named = assembled.style.zones.some(({ name }) => name === 'blend');
  return named ? 'The blend stands at' : `The centre passes ${amountText(BLEND_MM, writing)} at`;
}

function sayBlend(
  benched: BenchedReed,
  { blend, favouriteBlend }: ThereNow,
  writing: Writing,
  favouriteLabel: string | undefined,
): string {
  if (!blend) return `The centre line does not pass ${amountText(BLEND_MM, writing)} on this blade.`;
  const stands = `${blendStands(benched, writing)} ${distanceText(blend.valueMm, writing)}`;
  if (!favouriteBlend || !favouriteLabel)
    return `${stands} from the tip, ±${distanceText(COVERAGE * blend.uMm, writing)}.`;
  const apart = {
    valueMm: blend.valueMm - favouriteBlend.valueMm,
    uMm: Math.hypot(blend.uMm, favouriteBlend.uMm),
  };
  if (!isMeasurable(apart)) return `${stands}, as on ${favouriteLabel} as far as can be told.`;
  const way = apart.valueMm < 0 ? 'nearer the tip than' : 'further from the tip than';
  return `${stands}, ${apartWords(apart.valueMm, writing)} ${way} on ${favouriteLabel}.`;
}

/** A place this near to a zone along the blade, mm, is still told by its name. */
const BESIDE_MM = [0, 0.3, -0.3, 0.6, -0.6];

/** A place in the trade's words: `B's right window`, `A's spine`. */
export function placeOnBlade(zones: readonly PlacedZone[], blade: Blade, y: number, u: number): string {
  const [zone] = BESIDE_MM.flatMap((mm) =>
    zones.filter(({ outlines }) => outlines.some((outline) => contains(outline, y + mm, u))),
  );
  const title = zone?.title.toLowerCase();
  if (!zone || !title) return `${blade}, ${acrossWords(u)},`;
  if (zone.outlines.length === 2) return `${blade}’s ${u < 0 ? 'left' : 'right'} ${title.replace(/s$/, '')}`;
  return Math.abs(u) < 0.1 ? `${blade}’s ${title}` : `${blade}’s ${title}, ${acrossWords(u)},`;
}

function sayNearFloor(benched: BenchedReed, pass: number, near: readonly NearFloor[], writing: Writing) {
  const [nearest] = near;
  if (!nearest) return undefined;
  const { reading, marginMm } = nearest;
  const where = placeOnBlade(zonesAt(benched, pass), reading.blade, reading.fromTipMm, reading.across);
  const above =
    Math.abs(marginMm) < 0.0005
      ? 'is at its floor'
      : `is ${amountText(marginMm, writing)} ${marginMm > 0 ? 'above' : 'under'} its floor`;
  const others = near.length - 1;
  const rest =
    others === 0
      ? ''
      : ` ${sentence(countWord(others))} more ${others === 1 ? 'place is' : 'places are'} near.`;
  return `${where} ${above} at ${placeWords(reading.fromTipMm, writing)}.${rest}`;
}

/** Two means of controls closer than this are the same, mm: three quarters of a usual dial's step. */
const HELD_MM = 0.0075;

function sayControls({ assembled }: BenchedReed, pass: number, writing: Writing): string | undefined {
  const now = assembled.controls[pass] ?? [];
  if (now.length === 0) return undefined;
  const values = listed(now.map(({ thicknessMm }) => readingText(thicknessMm, writing)));
  const reads = `Untouched cane reads ${withUnit(values, UNIT_WORDS[writing.unit].caption)}`;
  const first = assembled.controls.findIndex((controls) => controls.length > 0);
  if (first === pass) return `${reads}.`;
  const mean = (controls: readonly { thicknessMm: number }[]) =>
    controls.reduce((sum, { thicknessMm }) => sum + thicknessMm, 0) / controls.length;
  const moved = mean(now) - mean(assembled.controls[first]!);
  const then = `pass ${assembled.passes[first]!.index}`;
  if (Math.abs(moved) < HELD_MM) return `${reads}, as in ${then}: zero and wetness held.`;
  const way = moved > 0 ? 'more' : 'less';
  return `${reads}, ${bareAmount(moved, writing)} ${way} than in ${then}: zero or wetness moved.`;
}
