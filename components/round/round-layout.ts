import { html, nothing, type TemplateResult } from 'lit';
import type { PadCommand } from './pad-typing.ts';
import type { PocketHooks } from './pocket-round.ts';
import { moreView } from './pocket-views.ts';
import * as views from './round-views.ts';

/** Parts of the screen that both layouts show. */
export interface LayoutParts {
  readonly blade: TemplateResult;
  readonly trouble: TemplateResult;
  readonly otherPlace: TemplateResult;
  /** The order of going, and what the paler numbers are; empty where there is nothing to say. */
  readonly words: readonly string[];
  readonly putDown: () => void;
}

/** What is done from either layout. */
export interface LayoutHooks extends views.HeardHooks, Pick<PocketHooks, 'tap' | 'answer'> {
  readonly press: (command: PadCommand) => void;
  /** Finishes with this zero; without one, with what stands in the field for it. */
  readonly finish: (zeroText?: string) => void;
  /** Puts the keys where readings go. */
  readonly focus: () => void;
  /** A key was pressed anywhere on the screen. */
  readonly anyKey: (event: KeyboardEvent) => void;
}

const said = (view: views.RoundView) => html`<p class="said" aria-live="polite">${views.saidWords(view)}</p>`;

/** At the desk: the next place and what was heard at the left, the blade at the right. */
export function deskLayout(view: views.RoundView, parts: LayoutParts, hooks: LayoutHooks) {
  const { blade, trouble, otherPlace, words, putDown } = parts;
  return html`<div class="screen" @keydown=${hooks.anyKey}>
    <div class="main">
      ${views.headerView(view, putDown)} ${trouble}
      ${view.desk.here ? views.nextView(view) : views.endView(view, () => hooks.finish())}
      ${views.heardView(view, hooks)} ${views.keysView(view, hooks.press)}
      <slot name="gauge"></slot>
      ${otherPlace} ${said(view)}
    </div>
    <aside aria-label="Blade">
      ${blade}
      <p class="foot">${views.dotView(view)}<span>${words[0]}</span></p>
      ${words.slice(1).map((one) => (one ? html`<p class="foot">${one}</p>` : nothing))}
      <p class="foot">${views.countView(view, hooks.setCount)}</p>
    </aside>
  </div>`;
}

/** In the hand: what is asked now over large keys; nothing scrolls, and what is seldom needed lies behind More. */
export function pocketLayout(
  view: views.RoundView,
  { trouble, otherPlace, words, putDown }: LayoutParts,
  hooks: LayoutHooks,
  now: TemplateResult,
  more: HTMLDialogElement | null,
) {
  const close = () => more?.close();
  const { press, setCount, focus: closed } = hooks;
  return html`<div class="pocket" @keydown=${hooks.anyKey}>
    ${views.headerView(view, putDown, () => more?.showModal())} ${trouble} ${now}
    ${moreView(view, otherPlace, words.filter(Boolean), { press, setCount, close, closed })} ${said(view)}
  </div>`;
}
