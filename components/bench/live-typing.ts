import type { ReactiveController, ReactiveControllerHost } from 'lit';
import type { Place } from '../../shared/blade.ts';
import type { Pass } from '../../shared/pass.ts';
import type { Reading } from '../../shared/reading.ts';
import type { Reed } from '../../shared/reed.ts';
import {
  expectedReading,
  withOneMore,
  type LeastSure,
  type LeftOpen,
  type LiveReed,
} from '../../src/answers/live-reed.ts';
import { COVERAGE, thicknessFigure } from '../../src/words/format.ts';
import { countFor } from '../../src/round/gauge-count.ts';
import { oddness, oddQuestion, oddSentence } from '../../src/round/oddness.ts';
import { stationKey, type StationChange } from '../readings-grid/grid-cells.ts';
import { stationWords } from '../readings-grid/grid-words.ts';
import type { OddCell } from '../readings-grid/odd-question.ts';
import type { LibraryController } from '../store/library-controller.ts';

const USUAL_STEP_MM = 0.01;

/** Whether a pass has readings of a station. */
const isRead = (readings: readonly Reading[], { blade, fromTipMm, across }: Place) =>
  readings.some(
    (reading) =>
      reading.blade === blade &&
      reading.fromTipMm === fromTipMm &&
      reading.across === across &&
      reading.role === 'station',
  );

/** A place named as precisely as its doubt is known. */
const rounded = ({ blade, fromTipMm, across }: Place): Place => ({
  blade,
  fromTipMm: Math.round(fromTipMm),
  across: Number(across.toFixed(1)),
});

/**
 * Follows what is typed into a pass: each new reading moves the surface by one step, its smoothing held; when the hand
 * rests the reed is fitted in full, and then its doubt is mapped. A key in between stops both.
 */
export class LiveTyping implements ReactiveController {
  private readonly host: ReactiveControllerHost & { readonly restMs: number };
  private readonly library: LibraryController;
  private readonly isAllKept: () => boolean;
  private followed = '';
  private version: string | undefined;
  private reed: Reed | undefined;
  private passIndex = 0;
  private timer: ReturnType<typeof setTimeout> | undefined;
  /** Stops a fit that has become worthless. */
  private resting = new AbortController();
  live: LiveReed | undefined;
  isRefining = false;
  /** What was open when the hand last rested. */
  open: LeftOpen | undefined;
  odd: ReadonlyMap<string, OddCell> = new Map();

  /** @param isAllKept Whether the library holds everything that was typed. */
  constructor(host: LiveTyping['host'], library: LibraryController, isAllKept: () => boolean) {
    this.host = host;
    this.library = library;
    this.isAllKept = isAllKept;
    host.addController(this);
  }

  hostDisconnected(): void {
    this.putOff();
    this.followed = '';
  }

  /** Turns to a pass of a reed; while it is the same it is fitted anew only when the library holds another version. */
  follow(reed: Reed | undefined, pass: Pass | undefined): void {
    this.reed = reed;
    const version = JSON.stringify(pass?.versions);
    const followed = `${reed?.id} ${pass?.index}`;
    if (followed === this.followed) {
      if (version !== this.version && this.isAllKept()) this.restLater(this.host.restMs);
      this.version = version;
      return;
    }
    this.followed = followed;
    this.version = version;
    this.passIndex = pass?.index ?? 0;
    this.live = undefined;
    this.open = undefined;
    this.odd = new Map();
    this.restLater(0);
  }

  /** @param before Readings of the pass before these changes. */
  take(pass: Pass | undefined, before: readonly Reading[], changes: readonly StationChange[]): void {
    const odd = new Map(this.odd);
    for (const change of changes) {
      const [reading, ...repeats] = change.readings;
      const key = stationKey(change);
      const isNew = reading?.thicknessMm !== undefined && repeats.length === 0;
      const asked = isNew ? this.judge(pass, reading) : undefined;
      if (asked) odd.set(key, asked);
      else odd.delete(key);
      if (pass && this.live && isNew && !isRead(before, change))
        this.live = withOneMore(this.live, pass, reading) ?? this.live;
    }
    this.odd = odd;
    this.restLater(this.host.restMs);
    this.host.requestUpdate();
  }

  /** The maker says that the reading of a place is as read. */
  confirm(place: Place): void {
    const odd = new Map(this.odd);
    odd.delete(stationKey(place));
    this.odd = odd;
    this.host.requestUpdate();
  }

  /** Why a reading that was taken is odd, and what it may be; undefined where it is not. */
  private judge(pass: Pass | undefined, reading: Reading): OddCell | undefined {
    const expected = this.live && expectedReading(this.live, reading);
    if (!expected || reading.thicknessMm === undefined) return undefined;
    const { unit, decimal } = this.library.writing;
    const count = countFor(pass?.gaugeStepMm ?? USUAL_STEP_MM, unit === 'thou' ? 'thou' : 'hundredths');
    const odd = oddness(reading.thicknessMm, { valueMm: expected.valueMm, sdMm: expected.uMm }, count);
    if (!odd) return undefined;
    const { slip } = odd;
    const written = { count, unit, decimal };
    return {
      words: oddSentence(reading, odd, written),
      asks: oddQuestion(odd, written),
      ...(slip && { slipMm: slip.thicknessMm }),
    };
  }

  private putOff(): void {
    clearTimeout(this.timer);
    this.resting.abort();
  }

  private restLater(ms: number): void {
    this.putOff();
    this.isRefining = true;
    this.timer = setTimeout(() => void this.rest(), ms);
  }

  private async rest(): Promise<void> {
    const { reed } = this;
    const { store } = this.library;
    if (!store || !reed || !this.isAllKept()) return this.restLater(this.host.restMs);
    this.resting = new AbortController();
    const { signal } = this.resting;
    try {
      const benched = await store.models.bench(reed, store.passesOf(reed.id), signal);
      signal.throwIfAborted();
      const { live, open } = await store.models.atRest(benched, this.passIndex, signal);
      this.live = live;
      this.open = open;
    } catch (error) {
      if (signal.aborted) return;
      this.live = undefined;
      store.tell(error);
    }
    this.isRefining = false;
    this.host.requestUpdate();
  }

  /** The place that is most open, in words. */
  get leastSure(): string {
    const place = this.open?.leastSure;
    return place ? this.leastSureWords(place) : '';
  }

  private leastSureWords(place: LeastSure): string {
    const { writing } = this.library;
    const { doubt } = thicknessFigure({ valueMm: place.uMm * COVERAGE, uMm: place.uMm }, writing);
    return `Least sure: ${stationWords(rounded(place), writing)}, ${doubt} (95 %).`;
  }
}
