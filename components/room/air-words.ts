import type { AirChange } from '../../src/climate/travel.ts';

/**
 * What the weather did since the day before, as a maker would say it, and whether the knife rests.
 *
 * @param until The day by which the cane will have followed; absent where it has, or where that is not known.
 */
export function weatherWords(
  { humidityPct, reeds, leaveTheKnife }: AirChange,
  until?: string,
): readonly [say: string, caution: string] {
  const way = humidityPct < 0 ? 'drier' : 'damper';
  const say = reeds
    ? `Much ${reeds} than the day before.`
    : Math.abs(humidityPct) < 5
      ? 'About as the day before.'
      : `A little ${way} than the day before.`;
  if (until) return [say, `The cane has not caught up: read and play, and leave the knife until ${until}.`];
  return [
    say,
    leaveTheKnife ? 'Read and play today; leave the knife where it is.' : 'The air has hardly changed.',
  ];
}

/** Words, unit, usual digits and source of each computed figure; pascals are shown in hundreds. */
export const FIGURE_WORDS = {
  vapourPressurePa: ['Water vapour', 'hPa', 1, 'Wagner & Pruß 2002 (IAPWS)'],
  absoluteHumidityGPerM3: ['Water in the air', 'g/m³', 1, 'ideal gas law'],
  dewPointC: ['Dew point', '°C', 1, 'WMO-No. 8, annex 4.B'],
  pressurePa: ['Pressure for the height', 'hPa', 1, 'ISO 2533:1975; the weather moves it'],
  airDensityKgPerM3: ['Density of the air', 'kg/m³', 3, 'OIML R 111-1:2004, E.3'],
  woodMoisturePct: [
    'Moisture that wood settles to',
    '%',
    1,
    'Wood Handbook 2021, equation 4-5; wood stands in for cane',
  ],
} as const;
