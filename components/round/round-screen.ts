import { html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import { makeId, type Id } from '../../shared/ids.ts';
import type { Act, Round } from '../../shared/round.ts';
import type { Settings } from '../../shared/settings.ts';
import { heldValue } from '../../src/gauge-lines/held-value.ts';
import type { SkipReason } from '../../src/round/fold-round.ts';
import type { GaugeCount } from '../../src/round/gauge-count.ts';
import { palerSentence, type OlderReading } from '../../src/round/older-readings.ts';
import { USUAL_BLADE_MM } from '../../src/round/round-plans.ts';
import { pickedPlace } from '../../src/round/snap-place.ts';
import { typedReading } from '../../src/round/typed-reading.ts';
import { typedZero } from '../../src/round/typed-zero.ts';
import type { GaugeSource } from '../gauge/gauge-source.ts';
import { HeardGauge } from '../gauge/heard-gauge.ts';
import { base, controls } from '../theme/base.styles.ts';
import { ThemeController } from '../theme/theme-controller.ts';
import type { KeepAct } from './act-queue.ts';
import { Announcer } from './announcer.ts';
import { outlineOf } from './outline-of-desk.ts';
import { outlineStyles } from './round-outline.styles.ts';
import { PadTyping, type PadCommand } from './pad-typing.ts';
import { RoundDesk, type Expecting } from './round-desk.ts';
import { RoundCountEvent, RoundEndEvent, RoundFinishEvent, RoundPutDownEvent } from './round-events.ts';
import { fittingStyles } from './round-fitting.styles.ts';
import './other-place.ts';
import type { OtherPlaceEvent } from './other-place.ts';
import { placeUnder, type Outline } from './round-outline.ts';
import { styles } from './round-screen.styles.ts';
import * as views from './round-views.ts';
import { ScreenLock } from './screen-lock.ts';
import { silence, speech, tones, type Voice } from './voice.ts';

/** The same reading over two channels within this time is one reading. Common practice, no source. */
const DOUBLE_MS = 150;
/** Enter pressed again this soon after the last reading is a slip of the hand. Common practice, no source. */
const BOUNCE_MS = 600;

/**
 * The Round: a whole screen for reading a reed's stations one after the other, by number pad, pedal, touch or a gauge
 * that sends its readings. Digits and Enter take a reading; `-` goes back one, `*` skips, `+` reads again, `/` marks the
 * last reading unsure, Ctrl Z and Ctrl Y undo and redo without limit. Keys never wait: acts queue, and a station is
 * shown as taken only when `keep` has resolved for it.
 *
 * Give `round`, `keep` and, for a round that was put down, its `acts`. They are read when `round` gets another id; from
 * then on the element holds the log itself.
 *
 * @slot gauge - A line about the gauge, under the keys.
 * @slot end - What is to be said at the end, before the round becomes a pass.
 * @event bench-round-put-down - The maker leaves; everything read is kept.
 * @event bench-round-end - Every station is dealt with and kept; carries the whole log.
 * @event bench-round-finish - The round is to become a pass; carries the whole log.
 * @event bench-round-count - The maker said what whole numbers count.
 */
@customElement('bench-round')
export class RoundScreen extends LitElement {
  static override styles = [base, controls, styles, fittingStyles, outlineStyles];

  private desk: RoundDesk | undefined;
  private voice: Voice = silence();
  private lastTaken:
    { readonly thicknessMm: number; readonly atMs: number; readonly from: string } | undefined;
  private announcer = new Announcer();
  /** The log as it stood when the end was last told. */
  private told: readonly Act[] | undefined;
  private readonly heard = new HeardGauge(
    this,
    () => this.gauge,
    (news) => {
      if (news.kind === 'reading') this.take(news.thicknessMm, performance.now(), 'gauge', news.method);
    },
  );
  private readonly typing = new PadTyping({
    enter: (atMs) => this.enter(atMs),
    command: (command) => this.command(command),
    unsign: () => this.desk?.goOn(),
    changed: () => {
      this.unclear = undefined;
      this.requestUpdate();
    },
  });

  @query('.figure input') private readonly input!: HTMLInputElement | null;
  @query('.zero') private readonly zeroField!: HTMLInputElement | null;
  @state() private unclear: views.RoundView['unclear'];

  /** The round being read. */
  @property({ attribute: false }) round: Round | undefined;
  /** Acts already kept, when the round was put down before. */
  @property({ attribute: false }) acts: readonly Act[] = [];
  /** Keeps one act; the promise resolves when it is on the disk. */
  @property({ attribute: false }) keep: KeepAct | undefined;
  /** What the surface expects at a place; asked only after a reading was taken there. */
  @property({ attribute: false }) expecting: Expecting = () => undefined;
  /** A gauge that sends its readings, opened by its owner. */
  @property({ attribute: false }) gauge: GaugeSource | undefined;
  @property({ attribute: 'reed-label' }) reedLabel = '';
  /** How the maker goes over the blade, for example `Row by row, turning`. */
  @property({ attribute: 'order-words' }) orderWords = '';
  /** What a whole number counts. */
  @property() count: GaugeCount = 'hundredths';
  @property() sounds: Settings['sounds'] = 'off';
  /** Thread to tip, mm. */
  @property({ type: Number, attribute: 'blade-length-mm' }) bladeLengthMm = USUAL_BLADE_MM.long;
  /** What earlier passes read, at its distance from the present tip. */
  @property({ attribute: false }) older: readonly OlderReading[] = [];
  /** Half the blade's width at a distance from the tip, mm. */
  @property({ attribute: false }) halfWidthMm: (fromTipMm: number) => number = (mm) => 3.5 - 0.048 * mm;
  /** Makes identifiers of acts. */
  @property({ attribute: false }) newId: () => Id = () =>
    makeId(Date.now(), crypto.getRandomValues(new Uint8Array(10)));

  constructor() {
    super();
    new ThemeController(this);
    new ScreenLock(this);
  }

  override willUpdate(changed: PropertyValues<this>) {
    if (changed.has('sounds')) this.voice = { off: silence, tones, speech }[this.sounds]();
    const isOther = changed.has('round') && changed.get('round')?.id !== this.round?.id;
    if (isOther || changed.has('keep') || !this.desk) this.openDesk();
  }

  override firstUpdated() {
    this.focus();
  }

  override updated() {
    const { input, typing } = this;
    if (input && input.value !== typing.text) input.value = typing.text;
    this.tellEnd();
  }

  private tellEnd() {
    const { desk } = this;
    if (!desk || desk.here || desk.nWaiting > 0 || desk.kept === this.told) return;
    this.told = desk.kept;
    this.dispatchEvent(new RoundEndEvent(desk.kept));
  }

  /** The place that the next reading belongs to; undefined at the end. */
  get place() {
    return this.desk?.here?.station;
  }

  /** Puts the keys where readings go. */
  override focus() {
    this.input?.focus({ preventScroll: true });
  }

  /** Goes to a station of the round, for example one clicked on a picture; a reading there replaces the one before. */
  goTo(place: Parameters<RoundDesk['goTo']>[0]) {
    this.desk?.goTo(place);
    this.focus();
  }

  private openDesk() {
    const { round, keep, acts, newId } = this;
    if (!round || !keep) return;
    this.announcer = new Announcer();
    this.desk = new RoundDesk({
      round,
      acts,
      keep,
      newId,
      count: () => this.count,
      expecting: (place) => this.expecting(place),
      changed: () => this.handleChanged(),
    });
  }

  private handleChanged() {
    if (this.desk) this.announcer.say(this.desk);
    this.requestUpdate();
  }

  private take(thicknessMm: number, atMs: number, from: 'keys' | 'gauge', method?: string) {
    const { desk, lastTaken } = this;
    if (!desk?.here) return;
    const isSame = lastTaken?.thicknessMm === thicknessMm && lastTaken.from !== from;
    if (isSame && atMs - lastTaken.atMs < DOUBLE_MS) return this.typing.clear();
    this.lastTaken = { thicknessMm, atMs, from };
    this.typing.clear();
    desk.take(thicknessMm, method);
    this.announcer.expect(desk, this.count, this.voice);
  }

  /** Enter at the end: the round is finished, with what was typed as its zero. Not by the last reading's own bounce. */
  private enterAtEnd(atMs: number) {
    if (atMs - (this.lastTaken?.atMs ?? -Infinity) < BOUNCE_MS) return;
    const { text } = this.typing;
    this.finish(text === '' ? undefined : text);
  }

  private enter(atMs: number) {
    if (!this.desk?.here) return this.enterAtEnd(atMs);
    const typed = typedReading(this.typing.text, this.count);
    if (typed.kind === 'reading') return this.take(typed.thicknessMm, atMs, 'keys');
    if (typed.kind === 'unclear') {
      this.typing.clear();
      this.unclear = typed;
      return;
    }
    const { live } = this.heard;
    if (!live) return void this.desk.goOn();
    this.heard.release();
    const held = heldValue(live.shownMm, live.lowestMm, this.desk.here.station.fromTipMm);
    this.take(held.thicknessMm, atMs, 'gauge', held.method);
  }

  /** A click on the blade: its station there, or one more. */
  private handlePicture({ blade, ...outline }: Outline, event: MouseEvent) {
    const svg = (event.currentTarget as Element).querySelector('svg')!;
    const place = pickedPlace(outline.stations, placeUnder(svg, outline, event), this.bladeLengthMm);
    if (place) this.goTo({ blade, ...place });
  }

  private command(command: PadCommand) {
    const { desk } = this;
    this.unclear = undefined;
    if (command === 'back') desk?.back();
    if (command === 'skip') desk?.skip('out of reach');
    if (command === 'again') desk?.again();
    if (command === 'unsure') desk?.toggleUnsure();
    if (command === 'undo' || command === 'redo') desk?.step(command);
  }

  private setCount(count: GaugeCount) {
    this.count = count;
    this.unclear = undefined;
    this.dispatchEvent(new RoundCountEvent(count));
    this.focus();
  }

  private finish(zeroText = this.zeroField?.value ?? '') {
    if (!this.desk || this.desk.nWaiting > 0) return;
    const zeroMm = typedZero(zeroText, this.count);
    if (zeroText.trim() !== '' && zeroMm === undefined) {
      this.unclear = { why: `“${zeroText.trim()}” is no zero. Type what the bare tongue reads, or nothing.` };
      return;
    }
    this.dispatchEvent(new RoundFinishEvent(this.desk.kept, zeroMm));
  }

  private readonly press = (command: PadCommand) => {
    this.typing.clear();
    this.command(command);
    this.focus();
  };
  private readonly hooks = {
    keyDown: (event: KeyboardEvent) => this.typing.handleKeyDown(event),
    input: (event: Event) => this.typing.handleInput((event.target as HTMLInputElement).value),
    skipInstead: (reason: SkipReason) => {
      this.desk?.skipInstead(reason);
      this.focus();
    },
    setCount: (count: GaugeCount) => this.setCount(count),
  };

  override render() {
    const { desk, round, reedLabel, count, unclear } = this;
    if (!desk || !round) return nothing;
    const goOnKey = this.heard.live ? '*' : 'Enter';
    const view = { desk, round, reedLabel, count, unclear, goOnKey, typed: this.typing.text } as const;
    const picture = outlineOf(desk, count, this.bladeLengthMm, this.halfWidthMm, this.older);
    const outline = views.outlineView(picture, (event) => this.handlePicture(picture, event));
    const paler = palerSentence((picture.older ?? []).map(({ since }) => since));
    const putDown = () => this.dispatchEvent(new RoundPutDownEvent());
    return html`<div class="screen">
      <div class="main">
        ${views.headerView(view, putDown)} ${views.troubleView(desk, this.heard.trouble)}
        ${desk.here ? views.nextView(view, outline) : views.endView(view, () => this.finish())}
        ${views.heardView(view, this.hooks)} ${views.keysView(view, this.press)}
        <slot name="gauge"></slot>
        <bench-other-place
          .blade=${picture.blade}
          @bench-other-place=${({ place }: OtherPlaceEvent) => this.goTo(place)}
        ></bench-other-place>
        <p class="foot narrow-only">${views.dotView(view)} ${views.countView(view, this.hooks.setCount)}</p>
        <p class="said" aria-live="polite">${views.saidWords(view)}</p>
      </div>
      <aside class="wide-only" aria-label="Blade">
        ${outline}
        <p class="foot">${views.dotView(view)}<span>${this.orderWords}</span></p>
        ${paler ? html`<p class="foot">${paler}</p>` : nothing}
        <p class="foot">${views.countView(view, this.hooks.setCount)}</p>
      </aside>
    </div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-round': RoundScreen;
  }
}
