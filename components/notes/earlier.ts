import { css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Id } from '../../shared/ids.ts';
import type { Reed } from '../../shared/reed.ts';
import { sentence } from '../../src/words/figure-words.ts';
import { historyOf, type Happening } from '../../src/rotation/history.ts';
import { dayWords } from '../../src/words/day-words.ts';
import { LibraryController } from '../store/library-controller.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { trialFacts } from './trial-facts.ts';

/** Something earlier is to be opened, to be read or mended. */
export class EarlierOpenEvent extends Event {
  readonly happening: Happening;
  constructor(happening: Happening) {
    super('bench-earlier-open');
    this.happening = happening;
  }
}

/**
 * What happened to a reed before, the newest first, as a column to be read; each opens in its form.
 *
 * @event bench-earlier-open - One of them is to be opened.
 */
@customElement('bench-earlier')
export class Earlier extends BenchElement {
  static override styles = css`
    h2 {
      margin: 0 0 var(--bench-space-3);
      font: var(--bench-font-head);
    }
    ol {
      margin: 0;
      padding: 0;
      list-style: none;
    }
    button {
      display: grid;
      grid-template-columns: 6.6em 14px minmax(0, 1fr);
      gap: 0 var(--bench-space-2);
      width: 100%;
      min-height: var(--bench-touch);
      padding: var(--bench-space-1) 0 var(--bench-space-3);
      border: 0;
      background: none;
      color: var(--bench-ink);
      font: var(--bench-font-caption);
      text-align: left;
      cursor: pointer;
    }
    button:hover .what {
      text-decoration: underline;
      text-underline-offset: 3px;
    }
    .day {
      color: var(--bench-ink2);
      text-align: right;
    }
    .rail {
      position: relative;
    }
    .rail::before {
      position: absolute;
      inset: 0 auto calc(-1 * var(--bench-space-3)) 6px;
      border-left: 1px solid var(--bench-ink3);
      content: '';
    }
    li:last-child .rail::before {
      display: none;
    }
    .rail i {
      position: absolute;
      top: 4px;
      left: 0;
      width: 13px;
      height: 13px;
      border: 2px solid var(--bench-ink);
      border-radius: 50%;
      background: var(--bench-paper);
    }
    .trial i,
    .use i {
      background: var(--bench-ink);
    }
    .tied i {
      border-color: var(--bench-ink3);
    }
    [aria-current='true'] .what {
      background: var(--bench-sunk);
    }
    .words {
      display: block;
      font: var(--bench-font-aside);
    }
    .facts {
      display: block;
      color: var(--bench-ink2);
    }
    .empty {
      margin: 0;
      color: var(--bench-ink2);
      font: var(--bench-font-aside);
    }
  `;

  private readonly library = new LibraryController(this);

  @property({ attribute: false }) reed: Reed | undefined;
  /** The document that stands in the form. */
  @property({ attribute: false }) current: Id | undefined;

  override render() {
    const { reed } = this;
    const { store } = this.library;
    if (!reed || !store) return nothing;
    const uses = store.snapshot.live.use.filter(({ reedId }) => reedId === reed.id);
    const kept = { passes: store.passesOf(reed.id), trials: store.trialsOf(reed.id), uses };
    const happenings = historyOf(reed, kept, this.library.writing).reverse();
    return html`<h2>Earlier, newest first</h2>
      ${
        happenings.length === 0
          ? html`<p class="empty">Nothing yet. “Tied” is a good beginning; a trial may stand alone.</p>`
          : html`<ol>
              ${happenings.map((happening) => this.renderOne(happening))}
            </ol>`
      }`;
  }

  private renderOne(happening: Happening) {
    const { at, id, kind, title, words } = happening;
    const isCurrent = id === this.current;
    return html`<li class=${kind}>
      <button
        aria-current=${isCurrent ? 'true' : 'false'}
        @click=${() => this.dispatchEvent(new EarlierOpenEvent(happening))}
      >
        <span class="day">${at === undefined ? 'no date' : dayWords(at)}</span>
        <span class="rail"><i></i></span>
        <span class="what"
          ><strong>${title}</strong> ${this.lead(happening)}
          ${words ? html`<span class="words">${words}</span>` : nothing}
          ${this.facts(happening).map((fact) => html`<span class="facts">${fact}</span>`)}</span
        >
      </button>
    </li>`;
  }

  /** After its kind: what it was, in a few words. */
  private lead({ id, kind, what }: Happening): string {
    if (kind !== 'trial') return what;
    const { afterPass, verdict } = this.trial(id)!;
    return [afterPass === undefined ? '' : `after pass ${afterPass}`, verdict].filter(Boolean).join(': ');
  }

  private facts({ id, kind }: Happening): string[] {
    if (kind !== 'trial') return [];
    const facts = trialFacts(this.trial(id)!, this.library.writing, this.library.choices.pitchHz);
    return facts.map((fact) => sentence(fact));
  }

  private trial(trialId: Id) {
    return this.library.store!.trialsOf(this.reed!.id).find(({ id }) => id === trialId);
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-earlier': Earlier;
  }
}
