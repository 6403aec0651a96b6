import { readingText } from '../../src/round/reading-text.ts';
import type { RoundFormat } from '../../src/round/gauge-count.ts';
import type { StationState } from '../../src/round/fold-round.ts';
import type { Blade } from '../../shared/blade.ts';
import { dotSide } from '../../src/round/place-words.ts';
import { placeNear } from '../../src/round/snap-place.ts';
import { sinceWords, type OlderReading } from '../../src/round/older-readings.ts';
import type { RoundDesk } from './round-desk.ts';
import type { OlderFigure, Outline, OutlineStation } from './round-outline.ts';

function stationOf(
  desk: RoundDesk,
  writing: RoundFormat,
  { key, station, readings, skipped }: StationState,
): OutlineStation {
  const last = readings.at(-1);
  const taken = last && (desk.isKept(last.id) ? 'taken' : 'waiting');
  return {
    key,
    fromTipMm: station.fromTipMm,
    across: station.across,
    is: taken ?? (skipped ? 'skipped' : 'to-come'),
    ...(last && { text: readingText(last.thicknessMm, writing) }),
    isOdd: readings.some(({ id }) => desk.oddnessOf(id) !== undefined),
    isUnsure: readings.some(({ flag }) => flag === 'doubtful'),
  };
}

/**
 * What was read before, at places that this round does not ask for: beside one that is still to be read it would lead
 * the eye.
 */
function olderFigures(desk: RoundDesk, writing: RoundFormat, older: readonly OlderReading[]): OlderFigure[] {
  const asked = desk.state.stations.map(({ station }) => station);
  return older
    .filter(
      (reading) =>
        !placeNear(
          asked.filter(({ blade }) => blade === reading.blade),
          reading,
        ),
    )
    .map((reading) => ({
      fromTipMm: reading.fromTipMm,
      across: reading.across,
      text: readingText(reading.thicknessMm, writing),
      since: sinceWords(reading),
    }));
}

/** What a blade is besides what is read of it. */
export interface BladeForm {
  readonly bladeLengthMm: number;
  readonly halfWidthMm: (fromTipMm: number) => number;
  /** What earlier passes read, at its distance from the present tip. */
  readonly older: readonly OlderReading[];
}

/** The picture of a blade: the one on which the maker stands unless another is named. */
export function outlineOf(
  desk: RoundDesk,
  writing: RoundFormat,
  { bladeLengthMm, halfWidthMm, older }: BladeForm,
  named?: Blade,
): Outline {
  const { state, here } = desk;
  const blade = named ?? (here ?? state.stations.at(-1))?.station.blade ?? 'A';
  const onBlade = state.stations.filter(({ station }) => station.blade === blade);
  const next = here ? onBlade.indexOf(here) : -1;
  return {
    blade,
    stations: onBlade.map((station) => stationOf(desk, writing, station)),
    ...(next >= 0 && { next }),
    ...(here?.station.blade === blade && next < 0 && { cursor: here.station }),
    older: olderFigures(
      desk,
      writing,
      older.filter((reading) => reading.blade === blade),
    ),
    bladeLengthMm,
    halfWidthMm,
    label: `Blade ${blade}, bark side, tip up, side 1 on the ${dotSide(blade)}. ${desk.nKept} of ${state.stations.length} read.`,
  };
}
