import type { Blade } from '../../shared/blade.ts';
import { floorAt } from '../blade/floors.ts';
import type { PlacedZone } from '../blade/zones.ts';
import { centreLine, crossing } from '../figures/crossing.ts';
import { zoneFigures, type ZoneFigures } from '../figures/zone-figures.ts';
import type { Estimate, FitReading } from '../surface/reed-model.ts';
import { zonesAt, type BenchedReed, type ReedAtPass } from './benched-reed.ts';
import { acrossWords, distance, listed, NORMAL_95, place, roughly, type Writing } from './figure-words.ts';

/** Thickness at which the centre line is said to be in the blend, mm. Common practice, no source. */
export const BLEND_MM = 0.3;
/** A reading this little above its floor, or less, is near it, mm: one and a half steps of a usual dial. */
const NEAR_MM = 0.015;

/** The latest reading of a place, and the pass that it comes from. */
export interface StandingReading extends FitReading {
  readonly pass: number;
}

/** The readings that stand after a pass: its own, and older ones where it read nothing, by place on the cane. */
export function standingReadings({ assembled }: BenchedReed, pass: number): StandingReading[] {
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

/** The zone that a place lies in, by its title. */
export function zoneTitleAt(zones: readonly PlacedZone[], y: number, u: number): string | undefined {
  return zones.find(({ outlines }) => outlines.some((outline) => contains(outline, y, u)))?.title;
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
    say: sayBlend(now, writing, favouriteLabel),
    ...(mind && { mind }),
    ...(aside && { aside }),
  };
}

function sayBlend(
  { blend, favouriteBlend }: ThereNow,
  writing: Writing,
  favouriteLabel: string | undefined,
): string {
  if (!blend) return 'The centre line does not pass 0.30 on this blade.';
  const stands = `The blend stands at ${distance(blend.valueMm, writing)}`;
  if (!favouriteBlend || !favouriteLabel)
    return `${stands} \u00b1${distance(NORMAL_95 * blend.uMm, writing)} from the tip.`;
  const apart = blend.valueMm - favouriteBlend.valueMm;
  if (Math.abs(apart) < NORMAL_95 * Math.hypot(blend.uMm, favouriteBlend.uMm)) {
    return `${stands}, where it stands on ${favouriteLabel} as far as can be told.`;
  }
  const way = apart < 0 ? 'nearer the tip than' : 'further from the tip than';
  return `${stands}, ${distance(Math.abs(apart), writing)} ${way} on ${favouriteLabel}.`;
}

function sayNearFloor(benched: BenchedReed, pass: number, near: readonly NearFloor[], writing: Writing) {
  const [nearest] = near;
  if (!nearest) return undefined;
  const { reading, marginMm } = nearest;
  const zone =
    zoneTitleAt(zonesAt(benched, pass), reading.fromTipMm, reading.across)?.toLowerCase() ?? 'place';
  const where = `${reading.blade}, ${acrossWords(reading.across)} (${zone}), ${place(reading.fromTipMm, writing)}`;
  const above =
    marginMm > 0.0005
      ? `is ${roughly(marginMm, writing)} above its floor`
      : marginMm < -0.0005
        ? `is ${roughly(marginMm, writing)} under its floor`
        : 'is at its floor';
  const others =
    near.length > 1 ? ` ${near.length - 1} more ${near.length === 2 ? 'place is' : 'places are'} near.` : '';
  return `${where}, ${above}.${others}`;
}

function sayControls({ assembled }: BenchedReed, pass: number, writing: Writing): string | undefined {
  const now = assembled.controls[pass] ?? [];
  if (now.length === 0) return undefined;
  const values = listed(now.map(({ blade, thicknessMm }) => `${roughly(thicknessMm, writing)} on ${blade}`));
  const first = assembled.controls.findIndex((controls) => controls.length > 0);
  if (first === pass) return `Untouched cane reads ${values}.`;
  const mean = (controls: readonly { thicknessMm: number }[]) =>
    controls.reduce((sum, { thicknessMm }) => sum + thicknessMm, 0) / controls.length;
  const moved = mean(now) - mean(assembled.controls[first]!);
  const held = Math.abs(moved) < 0.0075;
  return held
    ? `Untouched cane reads ${values}, as in pass ${assembled.passes[first]!.index}: zero and wetness held.`
    : `Untouched cane reads ${values}, ${roughly(moved, writing)} ${moved > 0 ? 'more' : 'less'} than in pass ${assembled.passes[first]!.index}: zero or wetness moved.`;
}
