import type { Place } from '../../shared/blade.ts';
import type { Id } from '../../shared/ids.ts';
import type { RoundState } from '../../src/round/fold-round.ts';
import type { GaugeCount } from '../../src/round/gauge-count.ts';
import { oddness, type Expectation, type Oddness } from '../../src/round/oddness.ts';

/** A place and what was read there in this round. */
export interface ReadPlace extends Place {
  readonly id: Id;
  readonly thicknessMm: number;
}

/** Gives what is expected at a place, which other readings of the round may tell; asked only after one was taken there. */
export type Expecting = (place: Place, others: readonly ReadPlace[]) => Expectation | undefined;

function readPlaces({ stations }: RoundState): ReadPlace[] {
  return stations.flatMap(({ station, readings }) =>
    readings.map(({ id, thicknessMm }) => ({ ...station, id, thicknessMm })),
  );
}

/** Which readings of a round are odd, and which of those the maker said to be as read. */
export class OddReadings {
  private readonly odd = new Map<Id, Oddness>();
  private readonly expecting: Expecting;
  private readonly count: () => GaugeCount;
  private confirmed: ReadonlySet<Id> = new Set();

  constructor(expecting: Expecting, count: () => GaugeCount) {
    this.expecting = expecting;
    this.count = count;
  }

  of(id: Id): Oddness | undefined {
    return this.confirmed.has(id) ? undefined : this.odd.get(id);
  }

  /** Takes note of what was confirmed. */
  settle({ stations }: RoundState): void {
    const readings = stations.flatMap((station) => station.readings);
    this.confirmed = new Set(readings.filter(({ confirmed }) => confirmed).map(({ id }) => id));
  }

  /** Judges a reading by what is expected there. */
  judge(state: RoundState, reading: ReadPlace, all = readPlaces(state)): void {
    // What is odd itself tells nothing of its neighbours.
    const others = all.filter(({ id }) => id !== reading.id && this.of(id) === undefined);
    const expectation = this.expecting(reading, others);
    const odd = expectation && oddness(reading.thicknessMm, expectation, this.count());
    if (odd) this.odd.set(reading.id, odd);
    else this.odd.delete(reading.id);
  }

  /** Judges every reading anew; once more where something was odd, since its neighbours were told by it. */
  judgeAll(state: RoundState): void {
    const all = readPlaces(state);
    for (const reading of all) this.judge(state, reading, all);
    if (this.odd.size > 0) for (const reading of all) this.judge(state, reading, all);
  }
}
