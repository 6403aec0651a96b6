import type { Place } from '../../shared/blade.ts';
import type { Station } from '../../shared/grid.ts';
import type { Id } from '../../shared/ids.ts';
import type { Act, Round } from '../../shared/round.ts';
import type { ActDraft } from '../../src/ledger/store.ts';
import {
  foldRound,
  type RoundState,
  type SkipReason,
  type StationState,
  type TakenReading,
} from '../../src/round/fold-round.ts';
import type { GaugeCount } from '../../src/round/gauge-count.ts';
import { standsIn, type Oddness } from '../../src/round/oddness.ts';
import { placeKey } from '../../src/round/place-words.ts';
import { placesToReadAgain } from '../../src/round/read-twice.ts';
import { MM_PER_COUNT } from '../../src/round/reading-text.ts';
import { shortState, type ShortRound, type ShortState } from '../../src/round/short-round.ts';
import { undoStacks, withdrawals } from '../../src/round/undo.ts';
import { OddReadings, type Expecting } from './odd-readings.ts';
import { ActQueue, type KeepAct } from './act-queue.ts';

export interface DeskOptions {
  readonly round: Round;
  readonly acts: readonly Act[];
  readonly keep: KeepAct;
  readonly newId: () => Id;
  readonly expecting: Expecting;
  /** Where the round asks for no more places than it takes. */
  readonly short?: ShortRound | undefined;
  /** What whole numbers count at the moment. */
  readonly count: () => GaugeCount;
  /** Called after anything changed: once a key, and once each time an act was kept. */
  readonly changed: () => void;
}

/** Where the maker went by hand, and what a reading there does to those before it. */
interface Detour {
  readonly key: string;
  readonly does: 'replace' | 'repeat';
  /** Where it is, for a place that the round does not hold yet. */
  readonly station?: Station;
}

/** What came of the last thing the maker did. */
export type Outcome =
  | {
      readonly kind: 'taken';
      readonly id: Id;
      readonly station: StationState['station'];
      readonly thicknessMm: number;
    }
  | {
      readonly kind: 'skipped';
      readonly station: StationState['station'];
      readonly id: Id;
      readonly reason: SkipReason;
    }
  | { readonly kind: 'undone' | 'redone' };

/** A round's clock stops here; nobody reads for eleven days. */
const MOST_SECONDS = 1e6;

/** A place that the round holds nothing of. */
function newPlace(station: Station): StationState {
  return { key: placeKey(station), station, asked: false, readings: [] };
}

/** A round in the making: the log, where the maker stands, and what each key does. Knows no screen. */
export class RoundDesk {
  private readonly options: DeskOptions;
  private readonly queue: ActQueue;
  private readonly odd: OddReadings;
  private detour: Detour | undefined;
  /** Places of the offer at the end that are still to be read again; absent until it is answered. */
  private toReadAgain: readonly Station[] | undefined;
  state: RoundState;
  /** How a short round stands; absent in any other. */
  short: ShortState | undefined;
  last: Outcome | undefined;

  constructor(options: DeskOptions) {
    this.options = options;
    this.queue = new ActQueue(options.acts, options.keep, () => this.refold());
    this.state = this.fold(options.acts);
    this.odd = new OddReadings(options.expecting, options.count);
    this.odd.settle(this.state);
    this.odd.judgeAll(this.state);
  }

  get kept(): readonly Act[] {
    return this.queue.kept;
  }
  get trouble(): unknown {
    return this.queue.trouble;
  }
  get nWaiting(): number {
    return this.queue.nWaiting;
  }

  /** Stations whose reading is on the disk. */
  get nKept(): number {
    return this.state.stations.filter(({ readings }) => readings.some(({ id }) => this.isKept(id))).length;
  }

  /** Places whose reading is odd and was not confirmed, in the order of going. */
  get oddPlaces(): readonly StationState[] {
    return this.state.stations.filter(({ readings }) => readings.some(({ id }) => this.oddnessOf(id)));
  }

  /** Places offered to be read again at the end, which shows whether the zero crept; none once that was answered. */
  get offered(): readonly Station[] {
    if (this.here || this.toReadAgain || this.short) return [];
    return placesToReadAgain(this.state, MM_PER_COUNT[this.options.count()]);
  }

  /** The station that the next reading belongs to. */
  get here(): StationState | undefined {
    const { detour } = this;
    if (detour) return this.state.byKey.get(detour.key) ?? (detour.station && newPlace(detour.station));
    return this.state.next === undefined ? undefined : this.state.stations[this.state.next];
  }

  get isDetour(): boolean {
    return this.detour !== undefined;
  }
  get isRepeat(): boolean {
    return this.detour?.does === 'repeat';
  }

  /** Goes on with a log that has grown elsewhere. */
  join(log: readonly Act[]): void {
    this.queue.join(log);
  }

  isKept(id: Id): boolean {
    return !this.queue.isWaiting(id);
  }
  /** Why a standing reading is odd; undefined too where the maker said that it is as read. */
  oddnessOf(id: Id): Oddness | undefined {
    return this.odd.of(id);
  }

  take(thicknessMm: number, method?: string): void {
    const { here } = this;
    if (!here) return;
    const replaces = this.replacedBy(here, thicknessMm);
    this.goOnAgain();
    this.write(here.station, thicknessMm, {
      ...(method !== undefined && { method }),
      ...(replaces !== undefined && { replaces }),
    });
  }

  /** Puts the number that was meant in the place of the last reading. */
  correct(thicknessMm: number): void {
    if (this.last?.kind === 'taken') this.write(this.last.station, thicknessMm, { replaces: this.last.id });
  }

  /** Says that the last reading, odd or not, is as read. */
  confirm(): void {
    if (this.last?.kind === 'taken') this.flag(this.last.id, 'ok');
  }

  /** Writes down something about the pass. */
  note(text: string): void {
    this.add([{ act: 'noted', roundId: this.options.round.id, text }]);
  }

  skip(reason: SkipReason): void {
    const { here } = this;
    if (!here) return this.answerOffer([]);
    this.goOnAgain();
    if (here.readings.length > 0) return this.options.changed();
    const id = this.options.newId();
    this.last = { kind: 'skipped', station: here.station, id, reason };
    this.add([{ act: 'skipped', roundId: this.options.round.id, id, station: here.station, reason }]);
  }

  /** Gives the last skip another reason. */
  skipInstead(reason: SkipReason): void {
    if (this.last?.kind !== 'skipped') return;
    const { id: before, station } = this.last;
    const id = this.options.newId();
    this.last = { kind: 'skipped', station, id, reason };
    const roundId = this.options.round.id;
    this.add([
      { act: 'withdrawn', roundId, of: before },
      { act: 'skipped', roundId, id, station, reason },
    ]);
  }

  /** One station back in the order of going. */
  back(): void {
    const { stations } = this.state;
    const at = this.here ? stations.indexOf(this.here) : stations.filter(({ asked }) => asked).length;
    const before = stations[at - 1];
    if (!before) return;
    this.detour = { key: before.key, does: 'replace' };
    this.options.changed();
  }

  /** To the last reading's place, for a second reading beside it. */
  again(): void {
    const place = this.detour
      ? this.here?.station
      : this.last?.kind === 'taken'
        ? this.last.station
        : undefined;
    if (!place) return;
    this.detour = { key: placeKey(place), does: 'repeat' };
    this.options.changed();
  }

  /** To a station, or to a place that the round did not ask for: its reading is added to those of the round. */
  goTo({ blade, fromTipMm, across }: Place): void {
    const station: Station = { blade, fromTipMm, across, role: 'station' };
    this.detour = { key: placeKey(station), does: 'replace', station };
    this.options.changed();
  }

  /** Takes up what is offered at the end, or goes on without it. */
  answerOffer(places: readonly Station[]): void {
    this.toReadAgain = places;
    this.goOnAgain();
    this.options.changed();
  }

  /** To the next place that is read again at the end, or back to the order of going. */
  private goOnAgain(): void {
    const [next, ...others] = this.toReadAgain ?? [];
    this.detour = next && { key: placeKey(next), does: 'repeat' };
    if (next) this.toReadAgain = others;
  }

  /** Back to the order of going. @returns False when the maker was there already. */
  goOn(): boolean {
    if (!this.detour) return false;
    this.detour = undefined;
    if (this.toReadAgain) this.toReadAgain = [];
    this.options.changed();
    return true;
  }

  /** Marks the last reading as unsure, or as sure again. */
  toggleUnsure(): void {
    if (this.last?.kind !== 'taken') return;
    const { id, station } = this.last;
    const reading = this.state.byKey.get(placeKey(station))?.readings.find((other) => other.id === id);
    if (!reading) return;
    this.flag(id, reading.flag === 'doubtful' ? 'ok' : 'doubtful');
  }

  /** Takes back the last step, or does again the last one taken back. */
  step(way: 'undo' | 'redo'): void {
    const [ids] = undoStacks(this.queue.all)[way];
    if (!ids) return;
    this.detour = undefined;
    this.last = { kind: way === 'undo' ? 'undone' : 'redone' };
    this.add(withdrawals(this.options.round.id, ids, this.options.newId()));
  }

  tryAgain(): void {
    void this.queue.run();
  }

  /** Since the round was begun. */
  private get seconds(): number {
    const since = Math.round((Date.now() - Date.parse(this.options.round.startedAt)) / 1000);
    return Math.min(MOST_SECONDS, Math.max(0, since));
  }

  private replacedBy(here: StationState, thicknessMm: number): Id | undefined {
    const earlier = here.readings.at(-1);
    if (!earlier || !this.detour) return undefined;
    if (this.detour.does === 'replace') return earlier.id;
    const isOdd = this.oddnessOf(earlier.id) !== undefined;
    return standsIn({ thicknessMm: earlier.thicknessMm, isOdd }, thicknessMm) ? earlier.id : undefined;
  }

  private write(
    station: Station,
    thicknessMm: number,
    more: { readonly method?: string; readonly replaces?: Id },
  ): void {
    const id = this.options.newId();
    const roundId = this.options.round.id;
    const { seconds } = this;
    this.last = { kind: 'taken', id, station, thicknessMm };
    this.add([{ act: 'taken', roundId, id, station, thicknessMm, flag: 'ok', seconds, ...more }]);
    // At the end every place has its neighbours, and those read first can be told.
    if (this.state.next === undefined) this.odd.judgeAll(this.state);
    else this.odd.judge(this.state, { ...station, id, thicknessMm });
  }

  private flag(of: Id, flag: TakenReading['flag']): void {
    this.add([{ act: 'flagged', roundId: this.options.round.id, of, flag }]);
  }

  private add(drafts: readonly ActDraft[]): void {
    this.queue.push(drafts.map((draft) => ({ ...draft, id: draft.id ?? this.options.newId() })));
    this.refold();
  }

  /** A short round holds the places that it takes, which its readings decide. */
  private fold(log: readonly Act[]): RoundState {
    const { round, short } = this.options;
    const whole = foldRound(round, log);
    if (!short) return whole;
    this.short = shortState(short, whole, this.last?.kind === 'taken' ? this.last.id : undefined);
    const { asked } = this.short;
    return foldRound({ stations: round.stations.filter((one) => asked.has(placeKey(one))) }, log);
  }

  private refold(): void {
    this.state = this.fold(this.queue.all);
    this.odd.settle(this.state);
    this.options.changed();
  }
}
