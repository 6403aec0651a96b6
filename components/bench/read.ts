import { css, html, nothing, type PropertyValues } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Place } from '../../shared/blade.ts';
import type { Pass, PassFacts, Replaced } from '../../shared/pass.ts';
import type { Reading } from '../../shared/reading.ts';
import type { Reed } from '../../shared/reed.ts';
import type { Draft } from '../../src/ledger/drafts.ts';
import { COUNT_WORDS, countFor } from '../../src/round/gauge-count.ts';
import { olderReadings, type OlderReading } from '../../src/round/older-readings.ts';
import { replacedBy, withHistory } from '../../src/round/replaced.ts';
import { overallLengthOf } from '../../src/round/rounds-of-reed.ts';
import { readByWords } from '../../src/words/figure-words.ts';
import { FaultWatch } from '../faults/fault-watch.ts';
import { hrefOf } from '../frame/routes.ts';
import { withChanges, type StationChange } from '../readings-grid/grid-cells.ts';
import '../reed/reed-readings.ts';
import type { ReadingAsReadEvent } from '../readings-grid/odd-question.ts';
import type { ReadingsChangeEvent } from '../readings-grid/readings-change-event.ts';
import '../live-reed/live-reed.ts';
import { gaugeInUse } from '../store/gauge-in-use.ts';
import { LibraryController } from '../store/library-controller.ts';
import { controls } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { LiveTyping } from './live-typing.ts';

const NONE_OLDER: readonly OlderReading[] = [];
const NONE_REPLACED: readonly Replaced[] = [];

/**
 * The readings of a pass as a sheet to type into. Every reading is kept when it is typed, and can be undone.
 *
 * @event bench-read-opened - The station that was asked for is open.
 */
@customElement('bench-read')
export class ReadPass extends BenchElement {
  static override styles = [
    controls,
    css`
      .page {
        display: grid;
        grid-template-columns: minmax(0, 1fr) minmax(240px, 320px);
        gap: var(--bench-space-4) var(--bench-space-6);
        align-items: start;
        padding: var(--bench-space-4) var(--bench-page-margin) var(--bench-space-7);
      }
      .acts,
      .page > p {
        grid-column: 1 / -1;
      }
      @media (max-width: 900px) {
        .page {
          grid-template-columns: minmax(0, 1fr);
        }
      }
      .acts {
        display: flex;
        flex-wrap: wrap;
        gap: var(--bench-space-3) var(--bench-space-4);
        align-items: center;
      }
      p {
        max-width: 60em;
        margin: 0;
        color: var(--bench-ink2);
      }
    `,
  ];

  private readonly library = new LibraryController(this);

  @property({ attribute: false }) reed: Reed | undefined;
  /** The pass that is typed into; absent before the first. */
  @property({ attribute: false }) pass: PassFacts | undefined;
  /** A station to open for correction as soon as its pass is there. */
  @property({ attribute: false }) opened: Place | undefined;
  /** The hand rests after this long without a reading, ms: then the reed is fitted in full. */
  @property({ type: Number, attribute: 'rest-ms' }) restMs = 300;

  /** The pass as the library holds it now: what the page was given may be a moment older. */
  private get current(): Pass | undefined {
    const { passes = [], pass } = this;
    return pass ? passes.find(({ index }) => index === pass.index) : passes.at(-1);
  }

  /** The reed's passes with their readings; undefined until these are there. */
  private get passes(): readonly Pass[] | undefined {
    return this.reed && this.library.store?.wholePassesOf(this.reed.id);
  }

  /** What was typed and is not kept yet: it stands in the sheet at once, and goes with the next if it failed. */
  @state() private pending: readonly StationChange[] = [];

  private readonly typing = new LiveTyping(this, this.library, () => this.pending.length === 0);
  /** Looks when the hand rests; while it types, what was found last stands. */
  private readonly faults = new FaultWatch(this, this.library, () => this.typing.live?.benched);
  /** The readings as they stand in the sheet. */
  private readings: readonly Reading[] = [];
  /** What was read before: the same while that is the same, and what it was worked out from. */
  private older: readonly OlderReading[] = [];
  private olderFrom: readonly unknown[] = [];
  /** What was read before stands, paler, where this pass has nothing; a maker whose eye it leads hides it. */
  @state() private showsOlder = true;

  override willUpdate(changed: PropertyValues<this>) {
    const [reed, pass] = [changed.get('reed'), changed.get('pass')];
    const isOther = (reed && reed.id !== this.reed?.id) || (pass && pass.index !== this.pass?.index);
    if (isOther) this.pending = [];
    if (!this.passes) return;
    this.readings = withChanges(this.current?.readings ?? [], this.pending);
    this.lookBack();
    this.typing.follow(this.reed, this.current);
  }

  override updated() {
    const { opened, passes } = this;
    const grid = this.renderRoot.querySelector('bench-reed-readings');
    if (!opened || !passes || !grid) return;
    void grid.updateComplete.then(() => grid.openPlace(opened));
    this.dispatchEvent(new Event('bench-read-opened'));
  }

  private handleReadings({ changes }: ReadingsChangeEvent) {
    const { reed } = this;
    const { store } = this.library;
    if (!reed || !store || !this.passes) return;
    const index = this.current?.index;
    this.typing.take(this.current, this.readings, changes);
    this.pending = [...this.pending, ...changes];
    const { pending } = this;
    void store
      .keepLatest(() => [this.changedPass(reed, index, pending)], `a reading of ${reed.label}`)
      .then((isKept) => {
        if (isKept) this.pending = this.pending.filter((change) => !pending.includes(change));
      });
  }

  private changedPass(reed: Reed, index: number | undefined, changes: readonly StationChange[]): Draft {
    const { passes = [] } = this;
    const pass = index === undefined ? passes.at(-1) : passes.find((one) => one.index === index);
    if (!pass) return this.newPass(reed, withChanges([], changes));
    const readings = withChanges(pass.readings, changes);
    const { deviceId, now } = this.library.store!.ledger;
    const given = replacedBy(pass.readings, readings, { at: now(), how: 'sheet', deviceId });
    return { ...pass, ...withHistory(pass.replaced, given), ...this.readBy(pass), readings };
  }

  /** The own name, beside those that stand there. */
  private readBy({ readBy = [] }: Pick<Pass, 'readBy'>) {
    const { readerName } = this.library.store!;
    return readerName === undefined ? {} : { readBy: [...new Set([...readBy, readerName])].sort() };
  }

  private newPass(reed: Reed, readings: Reading[]) {
    const store = this.library.store!;
    const before = store.passesOf(reed.id).at(-1);
    return {
      kind: 'pass' as const,
      reedId: reed.id,
      index: (before?.index ?? -1) + 1,
      takenAt: store.ledger.now(),
      ...gaugeInUse(store),
      ...(before?.overallLengthMm !== undefined && { overallLengthMm: before.overallLengthMm }),
      ...(before?.threadMm !== undefined && { threadMm: before.threadMm }),
      ...(before?.wetness && { wetness: before.wetness }),
      remedies: [],
      ...(readings.length > 0 && this.readBy({})),
      readings,
    };
  }

  private async handleNew() {
    const { reed } = this;
    const { store } = this.library;
    if (!reed || !(await store?.keepLatest(() => [this.newPass(reed, [])], `a pass of ${reed.label}`)))
      return;
    const index = store!.passesOf(reed.id).at(-1)!.index;
    location.hash = hrefOf({ at: 'bench', reedId: reed.id, question: 'read', pass: index });
  }

  private lookBack() {
    const { current: pass, passes = [] } = this;
    const earlier = passes.filter(({ index }) => pass === undefined || index < pass.index);
    const lengthMm = pass && overallLengthOf(pass, earlier);
    const from = [lengthMm, ...earlier];
    if (from.length === this.olderFrom.length && from.every((one, i) => one === this.olderFrom[i])) return;
    this.olderFrom = from;
    this.older = olderReadings(earlier, lengthMm);
  }

  override render() {
    const { reed, current: pass, library } = this;
    if (!reed || !this.passes) return nothing;
    const { readings } = this;
    const older = this.showsOlder ? this.older : NONE_OLDER;
    const count = readings.filter(({ thicknessMm }) => thicknessMm !== undefined).length;
    const ofPass = `${pass ? `Pass ${pass.index}` : 'The first pass'}, ${count} readings`;
    const title = [ofPass, readByWords(pass?.readBy)].filter(Boolean).join(', ');
    const stepMm = pass?.gaugeStepMm ?? 0.01;
    return html`${this.faults.render(pass)}
      <div class="page">
        <div class="acts">
          <strong>${title}</strong>
          <button
            aria-pressed=${this.showsOlder}
            @click=${() => {
              this.showsOlder = !this.showsOlder;
            }}
          >
            What was read before
          </button>
          ${pass && count > 0 ? html`<button @click=${this.handleNew}>New pass</button>` : nothing}
        </div>
        <p>
          Digits and Enter, in ${COUNT_WORDS[countFor(stepMm, library.writing.unit)]}. Arrows move, + and
          digits read a station once more, − goes back one, * is no cane, / is unsure, a blank cell and Enter
          clears, Ctrl Z takes back. Each reading is kept as you type it. Lower the ball gently: it dents a
          thin wet tip.
        </p>
        <bench-reed-readings
          bare
          .reed=${reed.label}
          .pass=${pass?.index ?? 0}
          .readings=${readings}
          .odd=${this.typing.odd}
          .older=${older}
          .replaced=${pass?.replaced ?? NONE_REPLACED}
          .deviceId=${library.store?.ledger.deviceId}
          .unit=${library.writing.unit}
          .decimal=${library.writing.decimal}
          .stepMm=${stepMm}
          @bench-readings-change=${this.handleReadings}
          @bench-reading-as-read=${({ place }: ReadingAsReadEvent) => this.typing.confirm(place)}
        ></bench-reed-readings>
        <bench-live-reed
          .live=${this.typing.live}
          .open=${this.typing.open}
          ?refining=${this.typing.isRefining}
          least-sure=${this.typing.leastSure}
          .writing=${library.writing}
        ></bench-live-reed>
      </div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-read': ReadPass;
  }
}
