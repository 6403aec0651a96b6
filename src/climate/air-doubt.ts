import { airFigures, type Air, type AirFigures } from './travel.ts';

/** How good a room's instruments are, one standard uncertainty. Common practice, no source. */
export const INPUT_U = { temperatureC: 0.4, humidityPct: 2.5, elevationM: 10 };
/** What the formulas leave open, one standard uncertainty: weather moves the true pressure by about 1 %. */
const MODEL_U = { pressurePa: 1000, woodMoisturePct: 0.5 };
/** Small enough for straight slopes, large enough for rounding. */
const STEP = { temperatureC: 0.01, humidityPct: 0.01, elevationM: 1 };

export interface AirFigure {
  readonly value: number;
  readonly u: number;
}
type Name = keyof AirFigures;
const NAMES: readonly Name[] = [
  'vapourPressurePa',
  'absoluteHumidityGPerM3',
  'dewPointC',
  'pressurePa',
  'airDensityKgPerM3',
  'woodMoisturePct',
];

/**
 * What follows from the air of one place, each figure with its standard uncertainty: that of the instruments through the
 * slopes of the formulas (JCGM 100:2008, 5.1.2), and what the formulas leave open.
 *
 * @returns The dew point is absent for entirely dry air.
 * @throws InputError for impossible air.
 */
export function airFiguresWithDoubt(air: Air): Partial<Record<Name, AirFigure>> {
  const here = airFigures(air);
  const inputs = Object.keys(INPUT_U) as (keyof typeof INPUT_U)[];
  const moved = inputs.map((input) => {
    // Away from the ends of the scale, so that the step stays possible air.
    const step = input === 'humidityPct' && air.humidityPct > 50 ? -STEP[input] : STEP[input];
    return { input, step, there: airFigures({ ...air, [input]: air[input] + step }) };
  });
  const figures = NAMES.flatMap((name) => {
    const value = here[name];
    if (value === undefined) return [];
    const parts = moved.map(
      ({ input, step, there }) => (((there[name] ?? value) - value) / step) * INPUT_U[input],
    );
    const pressureU = pressureShare(name, here) * MODEL_U.pressurePa;
    const own = name === 'woodMoisturePct' ? MODEL_U.woodMoisturePct : 0;
    return [[name, { value, u: Math.hypot(...parts, pressureU, own) }] as const];
  });
  return Object.fromEntries(figures);
}

/** Change of a figure for one pascal of pressure: the density goes with it, apart from the little that vapour takes. */
function pressureShare(name: Name, { airDensityKgPerM3, pressurePa }: AirFigures): number {
  if (name === 'pressurePa') return 1;
  return name === 'airDensityKgPerM3' ? airDensityKgPerM3 / pressurePa : 0;
}
