import { html, nothing } from 'lit';
import type { Blade } from '../../shared/blade.ts';
import { bladeTurn } from '../../src/round/blade-turn.ts';
import { acrossWords, dotSide, fromTipText, placeWords } from '../../src/round/place-words.ts';
import { fiveSteps } from './five-steps.ts';
import { bigKey, type SideKey } from './pocket-keys.ts';
import { roundOutline, type Outline } from './round-outline.ts';
import type { GaugeCount } from '../../src/round/gauge-count.ts';
import type { PadCommand } from './pad-typing.ts';
import type { Outcome } from './round-desk.ts';
import { dotQuestion, endSentence } from './round-words.ts';
import {
  chips,
  countView,
  dotView,
  enoughView,
  field,
  headingOf,
  lastTaken,
  lozenge,
  sentenceOf,
  spoken,
  type HeardHooks,
  type RoundView,
} from './round-views.ts';

/** Where the next reading is taken, beside the path over the blade. */
export function pocketPlace(view: RoundView, outline: unknown) {
  const { here } = view.desk;
  if (!here) return nothing;
  const { blade, fromTipMm, across, role } = here.station;
  const distance = fromTipText(fromTipMm, view);
  return html`<section class="place" aria-label="Next">
    <div class="words">
      <h1>${headingOf(view.desk)}</h1>
      <p class="where ${distance.length > 3 ? 'long' : ''}">
        <span class="blade">${blade}</span> <span>${distance}</span>
        <span class="unit">mm from the tip</span>
      </p>
      <p class="across">${acrossWords(across, view)}${role === 'control' ? ', untouched cane' : ''}</p>
      ${fiveSteps(across)}
    </div>
    ${outline}
  </section>`;
}

/** What was heard and what is being typed; what has to be said or chosen stands in the place of the second. */
export function pocketHeard(view: RoundView, hooks: HeardHooks) {
  const { desk, count, typed } = view;
  const taken = lastTaken(desk);
  const isOdd = taken !== undefined && desk.oddnessOf(taken.id) !== undefined;
  // An odd reading and the turn were asked about on a screen of their own.
  const isAsked = isOdd || bladeTurn(desk.state) !== undefined;
  const sentence = isAsked ? (view.unclear?.why ?? '') : sentenceOf(view);
  const choices = isAsked ? nothing : chips(view, hooks);
  const keptWords =
    taken && `${placeWords(taken.station, view)}. ${desk.isKept(taken.id) ? 'Kept.' : 'Being kept.'}`;
  const saying = sentence !== '' || choices !== nothing;
  return html`<section class="heard ${saying ? 'saying' : ''}" aria-label="Heard">
    <div class="last">
      <h2>Heard</h2>
      <p>
        ${isOdd ? lozenge : nothing}<b>${spoken(view, taken?.thicknessMm) || '–'}</b>
        <span>${keptWords}</span>
      </p>
    </div>
    <div class="now">
      ${saying ? nothing : html`<h2>Typing</h2>`}
      <div class="figure">
        <span aria-hidden="true">${typed}</span><span class="caret" aria-hidden="true"></span>
        <small>${count}</small>${field(view, hooks, 'none')}
      </div>
      ${
        saying
          ? html`<p class="sentence">${sentence}</p>
              ${choices}`
          : nothing
      }
    </div>
  </section>`;
}

/** Where digits go while a question stands on the screen. */
export function hiddenField(view: RoundView, hooks: HeardHooks) {
  return html`<div class="figure unseen">${field(view, hooks, 'none')}</div>`;
}

interface MoreHooks {
  readonly press: (command: PadCommand) => void;
  readonly setCount: (count: GaugeCount) => void;
  readonly close: () => void;
  readonly closed: () => void;
}

/** What is seldom needed while reading. */
export function moreView(view: RoundView, otherPlace: unknown, words: readonly string[], hooks: MoreHooks) {
  const does = (command: PadCommand, name: string) =>
    html`<button
      @click=${() => {
        hooks.press(command);
        hooks.close();
      }}
    >
      ${name}
    </button>`;
  return html`<dialog aria-label="More" @close=${hooks.closed}>
    <div class="more">
      ${does('undo', 'Take back the last step')} ${does('redo', 'Do it again')}
      ${does('unsure', 'The last reading is unsure')}
      <slot name="gauge"></slot>
      ${otherPlace} ${countView(view, hooks.setCount)} ${dotView(view)}
      ${words.map((one) => html`<p>${one}</p>`)}
      <button class="main-button" @click=${hooks.close}>Go on reading</button>
    </div>
  </dialog>`;
}

/** The question when the other blade comes: as large as a place. */
export function turnView(blade: Blade, saidNo: boolean, outline: Outline, done: string, keys: TurnKeys) {
  const other = blade === 'A' ? 'B' : 'A';
  const side = dotSide(blade);
  const where = saidNo
    ? `Then this is ${other}, or the tip points to you. Turn it again.`
    : `Turn the reed over to ${blade}.`;
  return html`<section class="question" aria-label="Turn the reed over">
    <h1>${where} ${dotQuestion(blade)}</h1>
    <div class="outline">${roundOutline(outline)}</div>
    <p>${done}</p>
    <div class="big-keys">
      ${bigKey({ words: `Yes, on my ${side}`, press: keys.yes, main: true })}
      ${bigKey({ words: `No, on my ${dotSide(other)}`, press: keys.no })}
      ${bigKey({ words: 'Zero again', press: keys.zero })}
    </div>
    <p class="foot">The tip points away from you; you look at the bark. Enter is yes.</p>
  </section>`;
}
interface TurnKeys {
  readonly yes: () => void;
  readonly no: () => void;
  readonly zero: () => void;
}

/** Rows as far as this to either side tell whether a reading fits. Common practice, no source. */
const NEAR_MM = 3;

/** The question about an odd reading, with what was read beside it in this round. */
export function oddView(
  view: RoundView,
  { station, thicknessMm }: Extract<Outcome, { kind: 'taken' }>,
  sentence: string,
  outline: Outline,
  keys: readonly SideKey[],
) {
  const from = Math.max(-0.6, station.fromTipMm - NEAR_MM);
  const part = [from, Math.min(outline.bladeLengthMm, from + 2 * NEAR_MM)] as const;
  return html`<section class="question" aria-label="An odd reading">
    <p class="odd-number">
      ${lozenge}<b>${spoken(view, thicknessMm)}</b><span>${placeWords(station, view)}</span>
    </p>
    <h1 class="smaller">${sentence}</h1>
    <div class="outline numbers">${roundOutline({ ...outline, part })}</div>
    <div class="big-keys">${keys.map(bigKey)}</div>
  </section>`;
}

/** The end: both blades with every place read, the odd ones in words, and what can still be done. */
export function pocketEnd(
  view: RoundView,
  outlines: readonly Outline[],
  odd: readonly string[],
  zero: string,
  keys: readonly SideKey[],
) {
  return html`<section class="question end" aria-label="End of the round">
    <h1>${endSentence(view.desk)} ${zero || 'Zero again?'}</h1>
    <div class="both">
      ${outlines.map((outline) => html`<div class="outline">${roundOutline(outline)}</div>`)}
    </div>
    <div class="telling">
      ${enoughView(view)} ${odd.map((sentence) => html`<p>${sentence}</p>`)}
      <slot name="end"></slot>
    </div>
    <div class="big-keys">${keys.map(bigKey)}</div>
    <p class="foot">Everything is kept already.</p>
  </section>`;
}
