import { airDensityKgPerM3, standardPressurePa } from './atmosphere.ts';
import { woodMoisturePct } from './moisture.ts';
import { pitchDriftCents } from './pitch.ts';
import { absoluteHumidityGPerM3, dewPointC, vapourPressurePa } from './vapour.ts';

/** Air that a reed lives in. */
export interface Air {
  readonly temperatureC: number;
  readonly humidityPct: number;
  readonly elevationM: number;
}

/** What follows from the air of one place. */
export interface AirFigures {
  readonly vapourPressurePa: number;
  readonly absoluteHumidityGPerM3: number;
  readonly dewPointC: number | undefined;
  /** Of the standard atmosphere at this height. */
  readonly pressurePa: number;
  readonly airDensityKgPerM3: number;
  /** Of wood, standing in for cane. */
  readonly woodMoisturePct: number;
}

/** @throws InputError for impossible air. */
export function airFigures({ temperatureC, humidityPct, elevationM }: Air): AirFigures {
  const pressurePa = standardPressurePa(elevationM);
  return {
    vapourPressurePa: vapourPressurePa(temperatureC, humidityPct),
    absoluteHumidityGPerM3: absoluteHumidityGPerM3(temperatureC, humidityPct),
    dewPointC: humidityPct > 0 ? dewPointC(temperatureC, humidityPct) : undefined,
    pressurePa,
    airDensityKgPerM3: airDensityKgPerM3(temperatureC, humidityPct, pressurePa),
    woodMoisturePct: woodMoisturePct(temperatureC, humidityPct),
  };
}

/**
 * Changes that a maker reckons with. The sizes at which they begin to matter are common practice, no source:
 * humidity by 20 points in a day, height by 600 m, two points of wood moisture, 3 degrees on stage.
 */
const MATTERS = { humidityPct: 20, elevationM: 600, woodMoisturePct: 2, temperatureC: 3 };

export interface AirChange {
  readonly humidityPct: number;
  readonly woodMoisturePct: number;
  readonly elevationM: number;
  /** Of an air column, from the temperature alone. */
  readonly pitchCents: number;
  /** Which way reeds are likely to go; absent when nothing changes enough to say. */
  readonly reeds?: 'drier' | 'damper';
  /** Reeds feel stiffer high up and freer low down; what causes it is disputed. */
  readonly height?: 'higher' | 'lower';
  readonly stage?: 'colder' | 'warmer';
  /** The day on which nothing should be scraped. */
  readonly leaveTheKnife: boolean;
}

/** What changes between here and there, or between yesterday and today. @throws InputError for impossible air. */
export function airChange(from: Air, to: Air): AirChange {
  const here = airFigures(from);
  const there = airFigures(to);
  const humidityPct = to.humidityPct - from.humidityPct;
  const moisture = there.woodMoisturePct - here.woodMoisturePct;
  const elevationM = to.elevationM - from.elevationM;
  const degrees = to.temperatureC - from.temperatureC;
  const wetnessMoves =
    Math.abs(moisture) >= MATTERS.woodMoisturePct || Math.abs(humidityPct) >= MATTERS.humidityPct;
  const heightMoves = Math.abs(elevationM) >= MATTERS.elevationM;
  return {
    humidityPct,
    woodMoisturePct: moisture,
    elevationM,
    pitchCents: pitchDriftCents(from.temperatureC, to.temperatureC),
    ...(wetnessMoves && { reeds: moisture < 0 ? ('drier' as const) : ('damper' as const) }),
    ...(heightMoves && { height: elevationM > 0 ? ('higher' as const) : ('lower' as const) }),
    ...(Math.abs(degrees) >= MATTERS.temperatureC && {
      stage: degrees < 0 ? ('colder' as const) : ('warmer' as const),
    }),
    leaveTheKnife: wetnessMoves || heightMoves,
  };
}

/** What a maker usually does about a change. Common practice, no source; schools differ. */
export function preparations(change: AirChange): string[] {
  const lines: string[] = [];
  if (change.reeds === 'drier') {
    lines.push(
      'Reeds are likely to close and to leak at the sides. Soak longer, and carry one or two that are a little open.',
    );
  }
  if (change.reeds === 'damper') {
    lines.push(
      'Reeds are likely to open and to feel heavy. Soak briefly, and carry one or two that are light.',
    );
  }
  if (change.height === 'higher') {
    lines.push(
      'High up, reeds often feel stiff and slow. Carry light ones, and give them a day or two to settle.',
    );
  }
  if (change.height === 'lower')
    lines.push('Lower down, reeds often speak more freely. Carry one or two that are heavier.');
  if (change.stage === 'colder')
    lines.push('A cold hall makes the instrument flat. A shorter reed serves better than scraping.');
  if (change.leaveTheKnife) lines.push('Read and play on the first day, and leave the knife where it is.');
  return lines;
}
