import { css, html, nothing } from 'lit';
import { customElement } from 'lit/decorators.js';
import { airLog, todayAndBefore } from '../../src/climate/air-log.ts';
import { airChange } from '../../src/climate/travel.ts';
import { documentName } from '../../src/ledger/document-words.ts';
import { equalLabels } from '../../src/reed/equal-names.ts';
import { waitingReeds } from '../../src/reed/waiting.ts';
import { numberText, quantityText, withUnit } from '../../src/words/format.ts';
import { unbroken } from '../bench/question-element.ts';
import { hrefOf } from '../frame/routes.ts';
import { weatherWords } from '../room/air-words.ts';
import { LibraryController } from '../store/library-controller.ts';
import type { LibraryStore } from '../store/library-store.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { dayWords } from '../../src/words/day-words.ts';

/** So many things that wait are shown at once. Our own number. */
const MOST_SHOWN = 5;

/** Something that waits for the maker, and where it is dealt with. */
interface Asked {
  readonly href: string;
  readonly title: string;
  readonly say: string;
  readonly amount?: string;
}

/**
 * What stands beside the case: what waits for the maker, the air of the room, and what is to be played.
 *
 * @slot - What stands between the room and the engagements.
 */
@customElement('bench-case-aside')
export class CaseAside extends BenchElement {
  static override styles = css`
    .right {
      display: grid;
      gap: var(--bench-space-6);
      align-content: start;
    }
    h2 {
      margin: 0 0 var(--bench-space-2);
      font: var(--bench-font-head);
    }
    a {
      text-underline-offset: 3px;
    }
    .waiting {
      margin: 0;
      padding: 0;
      list-style: none;
    }
    .waiting li {
      display: grid;
      grid-template-columns: 1fr auto;
      gap: 2px var(--bench-space-3);
      padding: var(--bench-space-3) 0;
      border-top: 1px solid var(--bench-rule);
    }
    .waiting a {
      font: var(--bench-font-aside);
      text-decoration: none;
    }
    /* On a telephone what waits stands first. */
    @media (max-width: 860px) {
      :host,
      .right {
        display: contents;
      }
      section:has(.waiting) {
        order: -1;
      }
    }
    .weather {
      margin: var(--bench-space-3) 0 0;
      font: var(--bench-font-aside);
    }
    .waiting a:hover {
      text-decoration: underline;
    }
    .waiting small,
    .quiet {
      grid-column: 1 / -1;
      margin: 0;
      color: var(--bench-ink2);
      font: var(--bench-font-caption);
    }
    dl {
      margin: 0;
    }
    dl > div {
      display: flex;
      justify-content: space-between;
      padding: var(--bench-space-2) 0;
      border-top: 1px solid var(--bench-rule);
    }
    dd {
      margin: 0;
    }
    dd small {
      color: var(--bench-ink2);
      font: var(--bench-font-caption);
    }
  `;

  private readonly library = new LibraryController(this);

  override render() {
    if (!this.library.store) return nothing;
    return html`<div class="right">
      ${this.renderWaiting()} ${this.renderRoom()} <slot></slot> ${this.renderEngagements()}
    </div>`;
  }

  /** Passes of the reeds that are not retired: those of ten years are not unpacked for what is of this week. */
  private get passesInUse() {
    const { store } = this.library;
    const alive = store!.reeds.filter(({ state }) => state !== 'retired');
    return alive.flatMap(({ id }) => store!.passesOf(id));
  }

  /** What only the maker can decide: sides that two devices have written, and labels that both have given. */
  private questions(store: LibraryStore): readonly Asked[] {
    const own = store.snapshot.disagreements.filter(([side]) => !side || !store.lent.has(side.id));
    const sides = own.map((all) => ({
      href: hrefOf({ at: 'setup' }),
      title: `${unbroken(documentName(all[0]!, (id) => store.reed(id)?.label))}: two sides`,
      say: 'Changed on two devices at once. Choose one in Setup.',
    }));
    const alike = equalLabels(store.reeds.filter(({ id }) => !store.lent.has(id)));
    const asked = alike.filter(({ key }) => !store.hasLeft(key));
    const twice = asked.flatMap(({ reeds: [, ...later] }) =>
      later.map(({ id, label }) => ({
        href: hrefOf({ at: 'bench', reedId: id, question: 'notes' }),
        title: `${unbroken(label)}: two reeds have this label`,
        say: 'Made on two devices at once. Give this one another label, or put it into the bin if it is the same reed.',
      })),
    );
    return [...sides, ...twice];
  }

  private renderWaiting() {
    const store = this.library.store!;
    const { round: rounds, use: uses, trial: trials } = store.snapshot.live;
    const reeds = store.reeds.filter(({ id }) => !store.lent.has(id));
    const passes = this.passesInUse;
    const waiting = waitingReeds({ reeds, passes, rounds, uses, trials });
    const hours = (amount: number) => quantityText('hours', amount, this.library.writing);
    const words = {
      round: { title: 'a round half done', say: 'Everything read so far is kept.' },
      again: {
        title: 'read it again, wet',
        say: 'Played many hours since its last reading. A last full map is worth more than all others.',
      },
      unread: { title: 'not read yet', say: 'Read it, or bring in its sheet.' },
    };
    const reading = waiting.map(({ kind, reed, amount }): Asked => ({
      href: hrefOf({ at: 'round', reedId: reed.id }),
      title: `${unbroken(reed.label)}: ${words[kind].title}`,
      say: words[kind].say,
      ...(kind === 'again' && { amount: hours(amount) }),
    }));
    const all = [...this.questions(store), ...reading].slice(0, MOST_SHOWN);
    return html`<section>
      <h2>Waiting for you</h2>
      ${
        all.length === 0
          ? html`<p class="quiet">Nothing waits.</p>`
          : html`<ul class="waiting">
              ${all.map(
                ({ href, title, amount, say }) =>
                  html`<li>
                    <a href=${href}>${title}</a>
                    <span>${amount ?? nothing}</span>
                    <small>${say}</small>
                  </li>`,
              )}
            </ul>`
      }
    </section>`;
  }

  private renderRoom() {
    const air = [...this.library.store!.snapshot.live.air].sort((a, b) => a.at.localeCompare(b.at));
    const [before, now] = [air.at(-2), air.at(-1)];
    const { writing } = this.library;
    const row = (
      name: string,
      value: number | undefined,
      unit: string,
      earlier: number | undefined,
      digits: number,
    ) =>
      value === undefined
        ? nothing
        : html`<div>
            <dt>${name}</dt>
            <dd>
              ${withUnit(numberText(value, digits, writing), unit)}
              ${earlier === undefined ? nothing : html`<small>before ${numberText(earlier, digits, writing)}</small>`}
            </dd>
          </div>`;
    return html`<section>
      <h2>The room</h2>
      ${
        now
          ? html`<dl>
              ${row('Humidity', now.humidityPct, '%', before?.humidityPct, 0)}
              ${row('Temperature', now.temperatureC, '°C', before?.temperatureC, 1)}
            </dl>`
          : html`<p class="quiet">No reading of the room. <a href=${hrefOf({ at: 'room' })}>Type one</a>.</p>`
      }
      ${this.renderWeather()}
    </section>`;
  }

  /** What the weather did since the day before, and whether the knife rests. */
  private renderWeather() {
    const { air, trial: trials } = this.library.store!.snapshot.live;
    const passes = this.passesInUse;
    const { today, before } = todayAndBefore(airLog({ air, trials, passes }));
    if (!today || !before) return nothing;
    return html`<p class="weather">${weatherWords(airChange(before.air, today.air)).join(' ')}</p>`;
  }

  private renderEngagements() {
    const { engagement } = this.library.store!.snapshot.live;
    if (engagement.length === 0) return nothing;
    const coming = [...engagement].sort((a, b) => a.at.localeCompare(b.at));
    return html`<section>
      <h2>Engagements</h2>
      <dl>
        ${coming.map(
          ({ title, at, reedId }) =>
            html`<div>
              <dt>${dayWords(at)}, ${title}</dt>
              <dd>${reedId ? this.library.store!.reed(reedId)?.label : nothing}</dd>
            </div>`,
        )}
      </dl>
    </section>`;
  }
}
