import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { keyed } from 'lit/directives/keyed.js';
import type { Id } from '../../shared/ids.ts';
import type { PassFacts } from '../../shared/pass.ts';
import type { Reed } from '../../shared/reed.ts';
import { dayWords } from '../../src/words/day-words.ts';
import { hrefOf } from '../frame/routes.ts';
import { LibraryController } from '../store/library-controller.ts';
import { controls } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import '../rotation/played-form.ts';
import './change-form.ts';
import './earlier.ts';
import type { EarlierOpenEvent } from './earlier.ts';
import './reed-form.ts';
import './retire-form.ts';
import './tied-form.ts';
import './trial-form.ts';
import type { TrialChosenEvent } from './trial-form.ts';

const ACTS = {
  tied: 'Tied',
  played: 'Played',
  changed: 'Scraped or adjusted',
  retired: 'Retired',
  reed: 'The reed',
} as const;
type Act = keyof typeof ACTS;
const ACT_OF = { tied: 'tied', pass: 'changed', trial: 'played', use: 'played', retired: 'retired' } as const;

/** What happened to a reed: one act at a time in a short form that is kept as it is written, and what was before beside it. */
@customElement('bench-notes')
export class Notes extends BenchElement {
  static override styles = [
    controls,
    css`
      .page {
        display: grid;
        grid-template-columns: minmax(0, 9fr) minmax(0, 6fr);
        gap: var(--bench-space-5) var(--bench-space-6);
        align-items: start;
        padding: var(--bench-space-3) var(--bench-page-margin) var(--bench-space-5);
      }
      .acts {
        display: grid;
        grid-template-columns: 4fr 4fr 5fr 4fr 4fr;
        margin-bottom: var(--bench-space-3);
        border: 1px solid var(--bench-rule2);
        border-radius: var(--bench-radius-button);
        overflow: hidden;
      }
      .acts button {
        padding: var(--bench-space-2) var(--bench-space-3);
        border: 0;
        border-right: 1px solid var(--bench-rule2);
        border-radius: 0;
        text-align: left;
      }
      .acts button:last-child {
        border-right: 0;
      }
      .acts button:focus-visible {
        outline-offset: -3px;
      }
      .acts strong,
      .acts small {
        display: block;
        font: var(--bench-font-caption);
      }
      .acts strong {
        font: var(--bench-font-head);
      }
      .sheet {
        padding: var(--bench-space-3) var(--bench-space-4);
        border: 1px solid var(--bench-rule);
        border-radius: var(--bench-radius-plate);
        background: var(--bench-plate);
      }
      @media (max-width: 1100px) {
        .page {
          grid-template-columns: minmax(0, 1fr);
        }
      }
      @media (max-width: 640px) {
        .acts {
          grid-template-columns: repeat(3, minmax(0, 1fr));
        }
        .acts button {
          border-bottom: 1px solid var(--bench-rule);
        }
        .sheet {
          padding: var(--bench-space-3);
        }
      }
    `,
  ];

  private readonly library = new LibraryController(this);
  @state() private act: Act = 'played';
  @state() private trialId: Id | undefined;
  /** A playing that is mended. */
  @state() private useId: Id | undefined;

  @property({ attribute: false }) reed: Reed | undefined;
  @property({ attribute: false }) pass: PassFacts | undefined;

  private handleOpen({ happening: { id, kind } }: EarlierOpenEvent) {
    const reed = this.reed!;
    this.act = ACT_OF[kind];
    this.trialId = kind === 'trial' ? id : undefined;
    this.useId = kind === 'use' ? id : undefined;
    const opened = kind === 'pass' && this.library.store!.passesOf(reed.id).find((pass) => pass.id === id);
    if (opened)
      location.hash = hrefOf({ at: 'bench', reedId: reed.id, question: 'notes', pass: opened.index });
    this.renderRoot.querySelector('.acts')?.scrollIntoView({ block: 'nearest' });
  }

  private handleAct(act: Act) {
    this.act = act;
    this.useId = undefined;
  }

  private get current(): Id | undefined {
    const { act, trialId, useId, pass, reed } = this;
    return act === 'played' ? (useId ?? trialId) : act === 'changed' ? pass?.id : reed?.id;
  }

  /** Under an act's name: how often it was written, and when last. */
  private when(act: Act, reed: Reed): string {
    const store = this.library.store!;
    const last = (at: string | undefined) => (at ? `, ${dayWords(at)}` : '');
    const [passes, trials] = [store.passesOf(reed.id), store.trialsOf(reed.id)];
    switch (act) {
      case 'tied':
        return reed.tiedOn ? `once${last(reed.tiedOn)}` : 'no day yet';
      case 'played':
        return trials.length === 0
          ? 'not yet'
          : `${timesWords(trials.length)}${last(trials.at(-1)!.playedAt)}`;
      case 'changed':
        return passes.length === 0
          ? 'not read yet'
          : `${passes.length} ${passes.length === 1 ? 'pass' : 'passes'}${last(passes.at(-1)!.takenAt)}`;
      case 'retired':
        return reed.retirement ? reed.retirement.cause : 'not yet';
      case 'reed':
        return reed.state;
    }
  }

  override render() {
    const { reed } = this;
    if (!reed || !this.library.store) return nothing;
    if (this.library.store.lent.has(reed.id))
      return html`<div class="page">
        <p>
          This reed is of the shared case, which this device reads as a guest: nothing is written of it here.
        </p>
        <bench-earlier .reed=${reed}></bench-earlier>
      </div>`;
    return html`<div class="page">
      <div>
        <div class="acts" role="group" aria-label="What happened">
          ${(Object.keys(ACTS) as Act[]).map(
            (act) =>
              html`<button aria-pressed=${act === this.act} @click=${() => this.handleAct(act)}>
                <strong>${ACTS[act]}</strong> <small>${this.when(act, reed)}</small>
              </button>`,
          )}
        </div>
        <div class="sheet">${this.renderAct(reed)}</div>
      </div>
      <bench-earlier
        .reed=${reed}
        .current=${this.current}
        @bench-earlier-open=${this.handleOpen}
      ></bench-earlier>
    </div>`;
  }

  private renderUse(reed: Reed, useId: Id) {
    const use = this.library.store!.snapshot.live.use.find(({ id }) => id === useId);
    if (!use) return nothing;
    return keyed(
      useId,
      html`<h2>In use on ${dayWords(use.at)}</h2>
        <bench-played-form
          .reeds=${[reed]}
          .use=${use}
          @bench-use-removed=${() => (this.useId = undefined)}
        ></bench-played-form>`,
    );
  }

  private renderAct(reed: Reed) {
    const { pass } = this;
    switch (this.act) {
      case 'tied':
        return keyed(reed.id, html`<bench-tied-form .reed=${reed}></bench-tied-form>`);
      case 'played':
        if (this.useId) return this.renderUse(reed, this.useId);
        return keyed(
          reed.id,
          html`<bench-trial-form
            .reed=${reed}
            .pass=${pass}
            .trialId=${this.trialId}
            @bench-trial-chosen=${({ trialId }: TrialChosenEvent) => (this.trialId = trialId)}
          ></bench-trial-form>`,
        );
      case 'changed':
        return keyed(pass?.id, html`<bench-change-form .reed=${reed} .pass=${pass}></bench-change-form>`);
      case 'retired':
        return keyed(reed.id, html`<bench-retire-form .reed=${reed}></bench-retire-form>`);
      case 'reed':
        return keyed(reed.id, html`<bench-reed-form .reed=${reed} .pass=${pass}></bench-reed-form>`);
    }
  }
}

const timesWords = (times: number) => (times === 1 ? 'once' : `${times} times`);

declare global {
  interface HTMLElementTagNameMap {
    'bench-notes': Notes;
  }
}
