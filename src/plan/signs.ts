import type { Sign } from '../../shared/habit.ts';
import { ALONE } from '../answers/even.ts';
import { figuresOf } from '../answers/record/reed-figures.ts';
import type { SeenZone } from '../answers/standing-readings.ts';
import type { Contrast } from '../figures/zone-figures.ts';
import type { ReedAtPass } from '../answers/fitted-reed.ts';
import { differenceFigure, joined, thicknessFigure, UNIT_WORDS, type NumberFormat } from '../words/format.ts';
import type { Estimate } from '../surface/reed-model.ts';
import { comparedZones, type ComparedZone } from './compare.ts';
import type { OwnHabit } from './own-habits.ts';
import { standsOut } from './say-compared.ts';
import type { Target } from './target.ts';
import { AT_FLOOR_MM } from './warnings.ts';

/** What one zone of a reed shows. */
export interface ZoneSeen extends SeenZone {
  /** Beside what the reed is brought to; absent where that does not stand. */
  readonly beside?: ComparedZone;
}

/** What a reed's figures show, zone by zone. */
export interface ReedSeen {
  /** Name of what it is brought to. */
  readonly towards?: string;
  readonly zones: readonly ZoneSeen[];
}

/** The figures of a reed that rows of the table ask for. */
export function seeReed(own: ReedAtPass, target?: Target): ReedSeen {
  const beside = new Map(target ? comparedZones(own, target).map((zone) => [zone.name, zone]) : []);
  const zones = figuresOf(own).zones.map((row): ZoneSeen => {
    const other = beside.get(row.name);
    return { ...row, ...(other && { beside: other }) };
  });
  return { ...(target && { towards: target.name }), zones };
}

/** What the figures show where a row says to look. */
export interface SignShown {
  readonly words: string;
  /** They show what the row is about, by more than their doubt. */
  readonly speaks: boolean;
}

/** A row of the table with what this reed's figures show there. */
export interface HabitShown {
  readonly habit: OwnHabit;
  readonly shown: readonly SignShown[];
  readonly speaks: boolean;
}

/** Rows in use, those that the figures speak for first; otherwise in the maker's own order. */
export function habitsFor(habits: readonly OwnHabit[], seen: ReedSeen, writing: NumberFormat): HabitShown[] {
  return habits
    .filter(({ off }) => !off)
    .map((habit): HabitShown => {
      const shown = (habit.signs ?? []).flatMap((sign) => showSign(sign, seen, writing) ?? []);
      return { habit, shown, speaks: shown.some(({ speaks }) => speaks) };
    })
    .sort((a, b) => Number(b.speaks) - Number(a.speaks));
}

function showSign({ zone: name, is }: Sign, seen: ReedSeen, writing: NumberFormat): SignShown | undefined {
  const zone = seen.zones.find((one) => one.name === name);
  if (!zone) return undefined;
  if (!zone.mean) return { words: `${zone.title}: not read`, speaks: false };
  return is === 'uneven' ? showUneven(zone, writing) : showLevel(zone, is, seen, writing);
}

function showLevel(
  zone: ZoneSeen,
  is: 'over' | 'under',
  { towards }: ReedSeen,
  writing: NumberFormat,
): SignShown {
  const { title, beside, toFloorMm } = zone;
  const mean = `${title}: mean ${joined(thicknessFigure(beside?.own ?? zone.mean!, writing))} ${UNIT_WORDS[writing.unit].caption}`;
  const isAtFloor = is === 'under' && toFloorMm !== undefined && toFloorMm < AT_FLOOR_MM;
  const floor = isAtFloor
    ? [toFloorMm < -AT_FLOOR_MM ? 'a reading under its floor' : 'a reading at its floor']
    : [];
  const away = beside ? [besideWords(beside, towards!, writing)] : [];
  const isAway =
    beside !== undefined && standsOut(beside) && beside.difference.valueMm > 0 === (is === 'over');
  return { words: [mean, ...away, ...floor].join(', '), speaks: isAway || isAtFloor };
}

function besideWords(zone: ComparedZone, towards: string, writing: NumberFormat): string {
  const { valueMm, uMm } = zone.difference;
  if (!standsOut(zone)) return `no sure difference from ${towards}`;
  const size = joined(thicknessFigure({ valueMm: Math.abs(valueMm), uMm }, writing));
  return `${size} ${valueMm > 0 ? 'over' : 'under'} ${towards}`;
}

export const CONTRAST_WORDS: Readonly<Record<Contrast, string>> = {
  hand: 'right less left',
  side: 'side 1 less side 2',
  blade: 'A less B',
};

/** The contrast that stands out most from its doubt. */
function showUneven({ title, balance }: ZoneSeen, writing: NumberFormat): SignShown {
  if (!balance) return { words: `${title}: only one blade is read`, speaks: false };
  const clear = ({ valueMm, uMm }: Estimate) => Math.abs(valueMm) / uMm;
  const [contrast, figure] = (Object.entries(balance) as [Contrast, Estimate][]).reduce((most, one) =>
    clear(one[1]) > clear(most[1]) ? one : most,
  );
  const speaks = clear(figure) > ALONE;
  const told = speaks ? 'can be told apart' : 'cannot be told apart for sure';
  return {
    words: `${title}: ${CONTRAST_WORDS[contrast]} ${joined(differenceFigure(figure, writing))} ${UNIT_WORDS[writing.unit].caption}, ${told}`,
    speaks,
  };
}

/** Why rows stand where they stand, in a sentence. */
export function sayOrder(rows: readonly HabitShown[]): string {
  const count = rows.filter(({ speaks }) => speaks).length;
  if (count === 0) return 'The figures of this reed speak for no row; they stand in your own order.';
  return `${count === 1 ? 'One row comes' : `${count} rows come`} first because the figures of this reed show something there; the others stand in your own order. What you hear decides.`;
}
