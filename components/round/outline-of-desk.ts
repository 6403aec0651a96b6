import { readingText } from '../../src/round/reading-text.ts';
import type { GaugeCount } from '../../src/round/gauge-count.ts';
import type { StationState } from '../../src/round/fold-round.ts';
import { dotSide } from '../../src/round/place-words.ts';
import type { RoundDesk } from './round-desk.ts';
import type { Outline, OutlineStation } from './round-outline.ts';

function stationOf(
  desk: RoundDesk,
  count: GaugeCount,
  { key, station, readings, skipped }: StationState,
): OutlineStation {
  const last = readings.at(-1);
  const taken = last && (desk.isKept(last.id) ? 'taken' : 'waiting');
  return {
    key,
    fromTipMm: station.fromTipMm,
    across: station.across,
    is: taken ?? (skipped ? 'skipped' : 'to-come'),
    ...(last && { text: readingText(last.thicknessMm, count) }),
    isOdd: readings.some(({ id }) => desk.oddnessOf(id) !== undefined),
    isUnsure: readings.some(({ flag }) => flag === 'doubtful'),
  };
}

/** The picture of the blade on which the maker stands. */
export function outlineOf(
  desk: RoundDesk,
  count: GaugeCount,
  bladeLengthMm: number,
  halfWidthMm: (fromTipMm: number) => number,
): Outline {
  const { state, here } = desk;
  const blade = (here ?? state.stations.at(-1))?.station.blade ?? 'A';
  const onBlade = state.stations.filter(({ station }) => station.blade === blade);
  const next = here ? onBlade.indexOf(here) : -1;
  return {
    blade,
    stations: onBlade.map((station) => stationOf(desk, count, station)),
    ...(next >= 0 && { next }),
    bladeLengthMm,
    halfWidthMm,
    label: `Blade ${blade}, bark side, tip up, side 1 on the ${dotSide(blade)}. ${state.nTaken} of ${state.stations.length} read.`,
  };
}
