import { html, nothing, type PropertyValues } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import type { Blade } from '../../shared/blade.ts';
import { makeId, type Id } from '../../shared/ids.ts';
import type { Act, Round } from '../../shared/round.ts';
import type { Settings } from '../../shared/settings.ts';
import { heldValue } from '../../src/gauge-lines/held-value.ts';
import { isFullReading } from '../../src/round/full-reading.ts';
import type { GaugeCount } from '../../src/round/gauge-count.ts';
import { palerSentence, type OlderReading } from '../../src/round/older-readings.ts';
import { USUAL_BLADE_MM } from '../../src/round/round-plans.ts';
import { readingText } from '../../src/round/reading-text.ts';
import { typedReading } from '../../src/round/typed-reading.ts';
import type { ShortRound } from '../../src/round/short-round.ts';
import { typedZero } from '../../src/round/typed-zero.ts';
import type { GaugeSource } from '../gauge/gauge-source.ts';
import { HeardGauge } from '../gauge/heard-gauge.ts';
import { controls } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import type { KeepAct } from './act-queue.ts';
import { Announcer } from './announcer.ts';
import { InHand } from './in-hand.ts';
import { LastTaken } from './last-taken.ts';
import { outlineOf } from './outline-of-desk.ts';
import { PocketRound } from './pocket-round.ts';
import { deskLayout, pocketLayout, type LayoutHooks, type LayoutParts } from './round-layout.ts';
import { PadTyping, type PadCommand } from './pad-typing.ts';
import { obey } from './obey.ts';
import type { Expecting } from './odd-readings.ts';
import { RoundDesk } from './round-desk.ts';
import { RoundCountEvent, RoundEndEvent, RoundFinishEvent, RoundPutDownEvent } from './round-events.ts';
import './other-place.ts';
import type { OtherPlaceEvent } from './other-place.ts';
import { roundStyles } from './round-styles.ts';
import * as views from './round-views.ts';
import { readersSentence } from './round-words.ts';
import { ScreenLock } from './screen-lock.ts';
import { silence, speech, tones, type Voice } from './voice.ts';

/**
 * The Round: a whole screen for reading a reed's stations one after the other, by number pad, pedal, touch or a gauge
 * that sends its readings. Digits and Enter take a reading; `-` goes back one, `*` skips, `+` reads again, `/` marks the
 * last reading unsure, Ctrl Z and Ctrl Y undo and redo without limit. Keys never wait: acts queue, and a station is
 * shown as taken only when `keep` has resolved for it.
 *
 * Give `round`, `keep` and, for a round that was put down, its `acts`. They are read when `round` gets another id; from
 * then on the element holds the log itself, and takes in what `acts` has more than it.
 *
 * @slot gauge - A line about the gauge, under the keys.
 * @slot end - What is to be said at the end, before the round becomes a pass.
 * @event bench-round-put-down - The maker leaves; everything read is kept.
 * @event bench-round-end - Every station is dealt with and kept; carries the whole log.
 * @event bench-round-finish - The round is to become a pass; carries the whole log.
 * @event bench-round-count - The maker said what whole numbers count.
 */
@customElement('bench-round')
export class RoundScreen extends BenchElement {
  static override styles = [controls, ...roundStyles];

  private desk: RoundDesk | undefined;
  private voice: Voice = silence();
  private readonly taken = new LastTaken();
  private announcer = new Announcer();
  /** The log as it stood when the end was last told. */
  private told: readonly Act[] | undefined;
  private readonly heard = new HeardGauge(
    this,
    () => this.gauge,
    (news) => {
      if (news.kind !== 'reading') return;
      if (this.inPocket((view) => this.pocket.hear(news.thicknessMm, view))) return;
      this.take(news.thicknessMm, performance.now(), 'gauge', news.method);
    },
  );
  private readonly typing = new PadTyping({
    enter: (atMs) => this.enter(atMs),
    command: (command) => this.command(command),
    unsign: () => this.desk?.goOn(),
    goesOn: (text) => this.takes === 'digits' && isFullReading(text, this.count),
    changed: () => {
      this.unclear = undefined;
      this.requestUpdate();
    },
  });

  private readonly inHand = new InHand(this);
  private readonly pocket = new PocketRound(() => this.requestUpdate());

  @query('dialog') private readonly more!: HTMLDialogElement | null;
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
  /** For a round that asks for no more places than it takes; read with `round`. */
  @property({ attribute: false }) short: ShortRound | undefined;
  /** A gauge that sends its readings, opened by its owner. */
  @property({ attribute: false }) gauge: GaugeSource | undefined;
  @property({ attribute: 'reed-label' }) reedLabel = '';
  /** How the maker goes over the blade, for example `Row by row, turning`. */
  @property({ attribute: 'order-words' }) orderWords = '';
  /** What a whole number counts. */
  @property() count: GaugeCount = 'hundredths';
  @property() sounds: Settings['sounds'] = 'off';
  /** What takes a typed reading. */
  @property() takes: Settings['takes'] = 'enter';
  /** How the digits of the round's own keys stand. */
  @property() digits: NonNullable<Settings['digits']> = 'telephone';
  /** The maker's decimal sign. */
  @property() decimal: Settings['decimal'] = 'point';
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
    new ScreenLock(this);
  }

  override willUpdate(changed: PropertyValues<this>) {
    if (changed.has('sounds')) this.voice = { off: silence, tones, speech }[this.sounds]();
    const isOther = changed.has('round') && changed.get('round')?.id !== this.round?.id;
    if (isOther || changed.has('keep') || !this.desk) this.openDesk();
    else if (changed.has('acts')) this.desk.join(this.acts);
  }

  override firstUpdated() {
    this.focus();
  }

  override updated() {
    const { input, typing } = this;
    if (input && input.value !== typing.text) input.value = typing.text;
    // A key that went away with its question takes the focus with it.
    if (document.activeElement === document.body) this.focus();
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
    const { round, keep, acts, newId, short } = this;
    if (!round || !keep) return;
    this.announcer = new Announcer();
    this.desk = new RoundDesk({
      round,
      acts,
      keep,
      newId,
      short,
      count: () => this.count,
      expecting: (place, others) => this.expecting(place, others),
      changed: () => this.handleChanged(),
    });
  }

  private handleChanged() {
    if (this.desk) this.announcer.say(this.desk);
    this.requestUpdate();
  }

  private take(thicknessMm: number, atMs: number, from: 'keys' | 'gauge', method?: string) {
    const { desk } = this;
    if (!desk?.here) return;
    this.typing.clear();
    if (this.taken.isTold(thicknessMm, atMs, from)) return;
    desk.take(thicknessMm, method);
    this.announcer.expect(desk, this, this.voice);
  }

  /** Enter at the end: the round is finished, with what was typed as its zero. Not by the last reading's own bounce. */
  private enterAtEnd(atMs: number) {
    if (this.taken.isBounce(atMs)) return;
    const zeroText = this.typing.text || this.pocket.zeroText;
    const offered = this.desk?.offered ?? [];
    if (!zeroText && offered.length > 0) return this.desk?.answerOffer(offered);
    this.finish(zeroText);
  }

  /** Lets the round's own keys answer first, where they are on the screen. */
  private inPocket(answers: (view: views.RoundView) => boolean): boolean {
    const view = this.inHand.matches && this.desk ? this.viewOf(this.desk) : undefined;
    return view !== undefined && answers(view);
  }

  private enter(atMs: number) {
    if (this.inPocket((view) => this.pocket.enter(view))) return this.typing.clear();
    if (!this.desk?.here) return this.enterAtEnd(atMs);
    const typed = typedReading(this.typing.text, this.count, this.decimal);
    if (typed.kind === 'reading') return this.take(typed.thicknessMm, atMs, 'keys');
    if (typed.kind === 'unclear') {
      this.typing.clear();
      this.unclear = typed;
      return;
    }
    const { live, request } = this.heard;
    if (request) return request();
    if (!live) return void this.desk.goOn();
    this.heard.release();
    const held = heldValue(live.shownMm, live.lowestMm, this.desk.here.station.fromTipMm);
    this.take(held.thicknessMm, atMs, 'gauge', held.method);
  }

  private command(command: PadCommand) {
    this.unclear = undefined;
    if (this.desk) obey(this.desk, command);
  }

  /** Digits and signs are for the round, whatever has the focus; Enter and Space press a button that has it. */
  private handleAnyKey(event: KeyboardEvent) {
    const isButton = event.composedPath()[0] instanceof HTMLButtonElement;
    if (!isButton || this.more?.open || event.key === 'Enter' || event.key === ' ') return;
    this.typing.handleKeyDown(event);
    if (event.defaultPrevented) this.focus();
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
    if (zeroText.trim() === '' || zeroMm !== undefined)
      this.dispatchEvent(new RoundFinishEvent(this.desk.kept, zeroMm));
    else
      this.unclear = { why: `“${zeroText.trim()}” is no zero. Type what the bare tongue reads, or nothing.` };
  }

  private readonly press = (command: PadCommand) => {
    this.typing.clear();
    this.command(command);
    this.focus();
  };
  private readonly hooks: LayoutHooks = {
    press: this.press,
    tap: (key) => this.typing.tap(key),
    answer: () => this.typing.answer(),
    finish: (zeroText) => this.finish(zeroText),
    focus: () => this.focus(),
    anyKey: (event) => this.handleAnyKey(event),
    keyDown: (event) => this.typing.handleKeyDown(event),
    input: (event) => this.typing.handleInput((event.target as HTMLInputElement).value),
    skipInstead: (reason) => {
      this.desk?.skipInstead(reason);
      this.focus();
    },
    setCount: (count) => this.setCount(count),
  };

  private get mark() {
    return this.decimal === 'comma' ? ',' : '.';
  }

  private viewOf(desk: RoundDesk): views.RoundView | undefined {
    const { round, reedLabel, count, decimal, unclear } = this;
    const goOnKey = this.heard.live || this.heard.request ? '*' : 'Enter';
    const typed = this.typing.text.replace('.', this.mark);
    return round && { desk, round, reedLabel, count, decimal, unclear, goOnKey, typed };
  }

  private readonly liveText = () => {
    const { live, request } = this.heard;
    if (request) return 'ask the gauge';
    return live ? readingText(live.shownMm, this) : '';
  };

  override render() {
    const { desk, heard, hooks } = this;
    const view = desk && this.viewOf(desk);
    if (!desk || !view) return nothing;
    const outline = (blade?: Blade) => outlineOf(desk, this, this, blade);
    const picture = outline();
    const parts: LayoutParts = {
      blade: views.outlineView(picture, (place) => this.goTo(place)),
      trouble: views.troubleView(desk, heard.trouble),
      otherPlace: html`<bench-other-place
        .blade=${picture.blade}
        .decimal=${this.decimal}
        @bench-other-place=${({ place }: OtherPlaceEvent) => {
          this.more?.close();
          this.goTo(place);
        }}
      ></bench-other-place>`,
      words: [
        this.orderWords,
        palerSentence((picture.older ?? []).map(({ since }) => since)) ?? '',
        readersSentence(desk.state),
      ],
      putDown: () => this.dispatchEvent(new RoundPutDownEvent()),
    };
    if (!this.inHand.matches) return deskLayout(view, parts, hooks);
    const now = this.pocket.render(view, {
      ...hooks,
      live: this.liveText,
      outline,
      picture: parts.blade,
      digits: this.digits,
      mark: this.mark,
    });
    return pocketLayout(view, parts, hooks, now, this.more);
  }
}
