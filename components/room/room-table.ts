import { dayOf } from '../../shared/moment.ts';
import { INPUT_U } from '../../src/climate/air-doubt.ts';
import type { CaneWater } from '../../src/climate/cane-water.ts';
import type { RoomDays } from '../../src/climate/room-days.ts';
import type { DayMark } from '../../src/reed/day-marks.ts';
import { airFigure, joined, NO_FIGURE, type NumberFormat } from '../../src/words/format.ts';
import { shortDay } from '../../src/words/day-words.ts';
import { sameAsTable } from '../marks/twin.ts';

type Sign = Pick<NumberFormat, 'decimal'>;

/** A humidity with its doubt, of a reading unless told. */
export const humidityFigure = (value: number, sign: Sign, u: number = INPUT_U.humidityPct) =>
  airFigure('humidity', { value, u }, sign);

const temperatureText = (value: number, sign: Sign) =>
  joined(airFigure('temperature', { value, u: INPUT_U.temperatureC }, sign));

export const waterText = ({ percent, u }: CaneWater, sign: Sign): string =>
  joined(airFigure('water', { value: percent, u }, sign));

/** What is known of the air of a day, in the lines of a card. */
export function airLines(room: RoomDays, water: readonly CaneWater[], day: number, sign: Sign): string[] {
  const entry = room.days.find((one) => one.day === day)?.entry;
  if (!entry) return ['no air was read'];
  const held = water.find((one) => one.day === day);
  const { humidityPct, temperatureC } = entry.air;
  const warm = entry.temperatureAssumed ? '' : `, ${temperatureText(temperatureC, sign)}`;
  return [
    `${joined(humidityFigure(humidityPct, sign))}${warm}`,
    ...(held ? [`water in the cane ${waterText(held, sign)}`] : []),
  ];
}

/** Every day as a row, with what happened on it. */
export function roomTable(
  room: RoomDays,
  water: readonly CaneWater[],
  happened: readonly DayMark[],
  sign: Sign,
) {
  const rows = [...room.days].reverse().map(({ day, entry }) => {
    const held = water.find((one) => one.day === day);
    return [
      shortDay(dayOf(day)),
      entry ? joined(humidityFigure(entry.air.humidityPct, sign)) : NO_FIGURE,
      entry && !entry.temperatureAssumed ? temperatureText(entry.air.temperatureC, sign) : NO_FIGURE,
      held ? waterText(held, sign) : NO_FIGURE,
      entry?.place ?? '',
      happened
        .filter((one) => one.day === day)
        .map(({ label, words }) => `${label} ${words}`)
        .join('; '),
    ];
  });
  return sameAsTable({
    caption: 'The air of every day, the latest first; ± is 95 %',
    heads: ['Day', 'Humidity', 'Temperature', 'Water in the cane', 'Where', 'What happened'],
    rows,
  });
}
