import { html, nothing } from 'lit';
import { classMap } from 'lit/directives/class-map.js';
import type { Place } from '../../shared/blade.ts';
import type { Round } from '../../shared/round.ts';
import type { SkipReason } from '../../src/round/fold-round.ts';
import { COUNT_WORDS, type GaugeCount, type RoundFormat } from '../../src/round/gauge-count.ts';
import { bladeTurn } from '../../src/round/blade-turn.ts';
import { acrossWords, fromTipText, placeWords } from '../../src/round/place-words.ts';
import { readingText } from '../../src/round/reading-text.ts';
import { enoughSentence } from '../../src/round/short-words.ts';
import { pickedPlace } from '../../src/round/snap-place.ts';
import { fiveSteps } from './five-steps.ts';
import type { PadCommand } from './pad-typing.ts';
import type { RoundDesk } from './round-desk.ts';
import { placeUnder, roundOutline, type Outline } from './round-outline.ts';
import {
  dotQuestion,
  endSentence,
  heardSentence,
  offerSentence,
  SKIP_WORDS,
  type GoOnKey,
} from './round-words.ts';

/** What the parts of the screen show. */
export interface RoundView extends RoundFormat {
  readonly desk: RoundDesk;
  readonly round: Round;
  readonly reedLabel: string;
  /** What goes on without reading: a gauge that sends all the time takes Enter for its value. */
  readonly goOnKey: GoOnKey;
  /** Text typed so far, with the maker's decimal sign. */
  readonly typed: string;
  /** Why the last text was not taken. */
  readonly unclear: { readonly why: string; readonly asCount?: GaugeCount } | undefined;
}

export const spoken = (writing: RoundFormat, thicknessMm: number | undefined) =>
  thicknessMm === undefined ? '' : readingText(thicknessMm, writing);

/** The reading just taken, unless the maker has gone elsewhere since. */
export function lastTaken(desk: RoundDesk) {
  return desk.last?.kind === 'taken' && !desk.isDetour ? desk.last : undefined;
}

export function headerView({ desk, round, reedLabel }: RoundView, putDown: () => void, more?: () => void) {
  const total = desk.state.stations.length;
  const done = desk.nKept + desk.state.nSkipped;
  return html`<div class="header">
    <span>
      ${reedLabel ? `${reedLabel}, ` : ''}pass ${round.passIndex}<span class="plan"
        >, ${round.plan.toLowerCase()}</span
      >
    </span>
    <span class="done">${done} of ${total}</span>
    ${more ? html`<button class="put-down" @click=${more}>More</button>` : nothing}
    <button class="put-down" @click=${putDown}>Put down<span class="plan"> and keep</span></button>
    <progress aria-label="Stations done" max=${total} value=${done}></progress>
  </div>`;
}

export function troubleView(desk: RoundDesk, gaugeTrouble: string) {
  const waiting = desk.nWaiting === 1 ? 'One thing waits' : `${desk.nWaiting} things wait`;
  const why = desk.trouble instanceof Error ? desk.trouble.message : '';
  return html`<div role="alert">
    ${
      desk.trouble === undefined
        ? nothing
        : html`<div class="trouble">
            <p>The last reading could not be kept. ${waiting} on this screen: leave it open. ${why}</p>
            <button @click=${() => desk.tryAgain()}>Try again</button>
          </div>`
    }
    ${gaugeTrouble ? html`<div class="trouble"><p>${gaugeTrouble}</p></div>` : nothing}
  </div>`;
}

/** What the maker is at. */
export function headingOf(desk: RoundDesk): string {
  if (!desk.isDetour) return 'Next';
  return desk.isRepeat ? 'Again' : 'Back at';
}

export function nextView(view: RoundView) {
  const { here } = view.desk;
  if (!here) return nothing;
  const { blade, fromTipMm, across, role } = here.station;
  return html`<section class="next-place" aria-label="Next">
    <div class="words">
      <h2>${headingOf(view.desk)}</h2>
      <p class="where">
        <span class="blade">${blade}</span> <span>${fromTipText(fromTipMm, view)}</span>
        <span class="unit">mm from the tip</span>
      </p>
      <p class="across">${acrossWords(across, view)}${role === 'control' ? ', untouched cane' : ''}</p>
    </div>
    ${fiveSteps(across)}
  </section>`;
}

/** The blade being read; a click on it goes to a place. */
export function outlineView(outline: Outline, goTo: (place: Place) => void) {
  const click = (event: MouseEvent) => {
    const svg = event.currentTarget instanceof Element ? event.currentTarget.querySelector('svg') : null;
    const pointed = svg && placeUnder(svg, outline, event);
    const place = pointed && pickedPlace(outline.stations, pointed, outline.bladeLengthMm);
    if (place) goTo({ blade: outline.blade, ...place });
  };
  return html`<div class="outline" @click=${click}>${roundOutline(outline)}</div>`;
}

/** What a short round has come to, at its end. */
export function enoughView({ desk, ...writing }: RoundView) {
  return desk.short ? html`<p class="enough">${enoughSentence(desk.short, writing)}</p>` : nothing;
}

export function endView(view: RoundView, finish: () => void) {
  const { desk, count } = view;
  const offer = offerSentence(desk);
  return html`<section class="end" aria-label="End of the round">
    <h2>The end</h2>
    <p class="across">${endSentence(desk)} Zero again?</p>
    ${enoughView(view)}
    ${
      offer &&
      html`<div class="chips" role="group" aria-label="Read again">
        <p>${offer} <kbd>Enter</kbd> reads them, <kbd>*</kbd> goes on without.</p>
        <button @click=${() => desk.answerOffer(desk.offered)}>Read them</button>
        <button @click=${() => desk.answerOffer([])}>Go on without</button>
      </div>`
    }
    <slot name="end"></slot>
    <div class="chips">
      <label>
        The bare tongue reads
        <input class="zero" inputmode="decimal" autocomplete="off" /> ${COUNT_WORDS[count]}
      </label>
      <button class="main-button" ?disabled=${desk.nWaiting > 0} @click=${finish}>Keep these</button>
    </div>
  </section>`;
}

export interface HeardHooks {
  readonly keyDown: (event: KeyboardEvent) => void;
  readonly input: (event: Event) => void;
  readonly skipInstead: (reason: SkipReason) => void;
  readonly setCount: (count: GaugeCount) => void;
}

/** What is said beside what was heard: what was not understood, where to turn to, or what came of the last key. */
export function sentenceOf(view: RoundView): string {
  const { desk, typed, unclear, goOnKey } = view;
  if (unclear) return unclear.why;
  if (typed !== '') return '';
  const turn = desk.isDetour ? undefined : bladeTurn(desk.state);
  const opening = turn ? `Turn the reed over to ${turn}. ` : '';
  const asks = desk.here && !desk.isDetour && (turn ?? !desk.last);
  const question = asks && desk.here ? `${opening}${dotQuestion(desk.here.station.blade)}` : '';
  return [question, heardSentence(desk, view, goOnKey)].filter(Boolean).join(' ');
}

export function heardView(view: RoundView, hooks: HeardHooks) {
  const { desk, typed } = view;
  const taken = lastTaken(desk);
  const isOdd = typed === '' && taken !== undefined && desk.oddnessOf(taken.id) !== undefined;
  const sentence = sentenceOf(view);
  return html`<section class="heard" aria-label="Heard">
    <h2>${typed === '' ? 'Heard' : 'Typing'}</h2>
    <div class="row">
      <div class="figure ${classMap({ typing: typed !== '' })}">
        ${isOdd ? lozenge : nothing}
        <span aria-hidden="true">${typed || spoken(view, taken?.thicknessMm)}</span>
        <span class="caret" aria-hidden="true"></span>
        ${field(view, hooks, 'decimal')}
      </div>
      <div>
        <p class="sentence">${sentence}</p>
        ${chips(view, hooks)}
      </div>
    </div>
  </section>`;
}

export const lozenge = html`<svg class="lozenge" viewBox="0 0 48 48" role="img" aria-label="odd">
  <path d="M24 0L48 24L24 48L0 24Z" />
</svg>`;

/** Where digits go. With keys on the screen the system's own keyboard stays down, and a gauge that types is still heard. */
export function field(view: RoundView, hooks: HeardHooks, inputMode: 'decimal' | 'none') {
  const { here } = view.desk;
  const label = here ? `Reading for ${placeWords(here.station, view)}` : 'Zero at the end; Enter keeps these';
  return html`<input
    aria-label=${label}
    type="text"
    inputmode=${inputMode}
    enterkeyhint="next"
    autocomplete="off"
    spellcheck="false"
    @keydown=${hooks.keyDown}
    @input=${hooks.input}
  />`;
}

export function chips(view: RoundView, { setCount, skipInstead }: HeardHooks) {
  const { desk, unclear } = view;
  const { last } = desk;
  if (unclear?.asCount) {
    const { asCount } = unclear;
    return html`<div class="chips">
      <button @click=${() => setCount(asCount)}>It counts ${asCount}</button>
    </div>`;
  }
  const odd = oddChips(view);
  if (odd) return odd;
  if (last?.kind !== 'skipped' || desk.isDetour) return nothing;
  const reasons = Object.entries(SKIP_WORDS) as [SkipReason, string][];
  return html`<div class="chips" role="group" aria-label="Why skipped">
    ${reasons.map(
      ([reason, words]) =>
        html`<button aria-pressed=${reason === last.reason} @click=${() => skipInstead(reason)}>
          ${words}
        </button>`,
    )}
  </div>`;
}

/** Answers to an odd reading; none of them has to be given. */
function oddChips(view: RoundView) {
  const { desk, typed } = view;
  const taken = typed === '' ? lastTaken(desk) : undefined;
  const odd = taken && desk.oddnessOf(taken.id);
  if (!taken || !odd) return undefined;
  const { slip } = odd;
  return html`<div class="chips" role="group" aria-label="What it is">
    ${slip ? html`<button @click=${() => desk.correct(slip.thicknessMm)}>It is ${spoken(view, slip.thicknessMm)}</button>` : nothing}
    <button @click=${() => desk.confirm()}>${spoken(view, taken.thicknessMm)}, as read</button>
  </div>`;
}

export function keysView(view: RoundView, press: (command: PadCommand) => void) {
  const { desk } = view;
  const last = desk.last?.kind === 'taken' ? spoken(view, desk.last.thicknessMm) : '';
  const nothingToReadAgain = last === '' && !desk.isDetour;
  return html`<div class="keys" role="group" aria-label="Keys">
    <button @click=${() => press('back')} aria-keyshortcuts="-">
      <strong>Back one</strong><span><kbd>−</kbd> or hold the pedal</span>
    </button>
    <button @click=${() => press('skip')} aria-keyshortcuts="*" ?disabled=${!desk.here}>
      <strong>Skip</strong><span><kbd>*</kbd> no cane, or out of reach</span>
    </button>
    <button @click=${() => press('again')} aria-keyshortcuts="+" ?disabled=${nothingToReadAgain}>
      <strong>Read again</strong><span><kbd>+</kbd> ${last ? `${last} stays on record` : 'keeps both'}</span>
    </button>
  </div>`;
}

export function countView({ count }: RoundView, setCount: (count: GaugeCount) => void) {
  const change = (event: Event) => setCount((event.target as HTMLSelectElement).value as GaugeCount);
  return html`<label>
    A whole number counts
    <select @change=${change}>
      ${Object.entries(COUNT_WORDS).map(
        ([name, words]) => html`<option value=${name} ?selected=${name === count}>${words}</option>`,
      )}
    </select>
  </label>`;
}

/** The side-1 question for the blade on which the maker stands. */
export function dotView({ desk }: RoundView) {
  const { blade } = (desk.here ?? desk.state.stations.at(-1)!).station;
  return html`<span class="dot">${dotQuestion(blade)}</span>`;
}

/** For the screen reader: what was heard, why it is odd, what is next. */
export function saidWords(view: RoundView): string {
  const { desk, unclear, goOnKey } = view;
  if (unclear) return unclear.why;
  const { here } = desk;
  const heard = spoken(view, lastTaken(desk)?.thicknessMm);
  const next = here ? `Next ${placeWords(here.station, view)}.` : endSentence(desk);
  return [heard && `${heard}.`, heardSentence(desk, view, goOnKey), next].filter(Boolean).join(' ');
}
