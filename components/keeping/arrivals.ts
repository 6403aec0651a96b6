import { css, html, nothing, type PropertyValues } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import type { Reed } from '../../shared/reed.ts';
import type { LateRound } from '../../src/ledger/late-acts.ts';
import {
  equalLabels,
  equalNumbers,
  freeLabel,
  hiddenLabels,
  renumbered,
  type NameQuestion,
} from '../../src/reed/equal-names.ts';
import { decided, lateReadings, withLate } from '../../src/round/late-readings.ts';
import { placeWords } from '../../src/round/place-words.ts';
import { hiddenIn, withoutHidden } from '../../src/words/hidden-characters.ts';
import { readingText, UNIT_WORDS } from '../../src/words/format.ts';
import { dayWords } from '../../src/words/day-words.ts';
import { hrefOf } from '../frame/routes.ts';
import type { LibraryStore } from '../store/library-store.ts';
import { hiddenProblem } from '../form-fields.ts';
import { controls } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { boxes } from '../theme/forms.styles.ts';
import { notices } from '../theme/notices.styles.ts';

const counted = (count: number, one: string, many = `${one}s`) =>
  `${count === 1 ? 'one' : count} ${count === 1 ? one : many}`;

/**
 * What came from another device and needs the maker's word, one question at a time: readings of a round that had become
 * a pass by then, reeds of one label, passes of one number.
 */
@customElement('bench-arrivals')
export class Arrivals extends BenchElement {
  static override styles = [
    controls,
    boxes,
    notices,
    css`
      section > div {
        flex: 1 1 320px;
      }
      label {
        display: inline-flex;
        gap: var(--bench-space-2);
        align-items: center;
      }
      input {
        width: 9em;
      }
      details {
        color: var(--bench-ink2);
      }
      ul {
        margin: 0;
        padding-left: var(--bench-space-4);
      }
      a {
        display: inline-flex;
        align-items: center;
        min-height: var(--bench-touch);
      }
    `,
  ];

  @property({ attribute: false }) store: LibraryStore | undefined;
  @state() private late: readonly LateRound[] = [];
  @state() private busy = false;
  @state() private problem = '';
  @query('input') private readonly label!: HTMLInputElement | null;
  private listening: AbortController | undefined;
  /** Of two looks the one begun later counts. */
  private looks = 0;

  override disconnectedCallback() {
    super.disconnectedCallback();
    this.listening?.abort();
    this.listening = undefined;
  }

  override updated(changed: PropertyValues<this>) {
    const { store } = this;
    if (!store || (!changed.has('store') && this.listening)) return;
    this.listening?.abort();
    this.listening = new AbortController();
    const { signal } = this.listening;
    store.addEventListener('bench-library-change', () => void this.look(store), { signal });
    void this.look(store);
  }

  private async look(store: LibraryStore): Promise<void> {
    if (store.keeping.state === 'trouble') return;
    const turn = ++this.looks;
    try {
      const late = await store.ledger.lateRounds();
      if (turn !== this.looks) return;
      this.late = late;
      this.requestUpdate();
    } catch (error) {
      // What is told changes the library, and would be looked at again, and fail, for ever.
      this.listening?.abort();
      store.tell(error);
    }
  }

  private equals(store: LibraryStore): NameQuestion[] {
    const alive = store.reeds.filter(({ state: now }) => now !== 'retired');
    const numbers = alive.flatMap((reed) => equalNumbers(reed, store.passesOf(reed.id)));
    return [...hiddenLabels(store.reeds), ...equalLabels(store.reeds), ...numbers].filter(
      ({ key }) => !store.hasLeft(key),
    );
  }

  private async run(work: () => Promise<unknown>): Promise<void> {
    this.busy = true;
    this.problem = '';
    try {
      await work();
    } finally {
      this.busy = false;
    }
  }

  private takeIn(store: LibraryStore, { round, acts }: LateRound, isWanted: boolean) {
    void this.run(async () => {
      const passes = isWanted ? await store.loadPasses(round.reedId) : [];
      const pass = passes.find(({ id }) => id === round.closedAs);
      const drafts = [...(pass ? [withLate(pass, round, acts)] : []), decided(round, acts)];
      const what = isWanted ? 'taking late readings in' : 'leaving late readings out';
      await store.keep(drafts, `${what}, pass ${round.passIndex}`);
    });
  }

  private leave(store: LibraryStore, { key }: NameQuestion) {
    void this.run(() => store.leave(key));
  }

  private rename(store: LibraryStore, reed: Reed) {
    const label = this.label?.value.trim() ?? '';
    if (label === '') this.problem = 'A reed needs a label: it stands on its thread.';
    else if (store.reeds.some((other) => other.label.toLowerCase() === label.toLowerCase()))
      this.problem = `There is a ${label} already. Labels are never used twice.`;
    else if (this.label && hiddenIn(label).length > 0) this.problem = hiddenProblem(this.label);
    else void this.run(() => store.keep([{ ...reed, label }], `the label ${label}`));
  }

  override render() {
    const { store } = this;
    if (!store) return nothing;
    const [late] = this.late;
    if (late) return html`<div role="status">${this.renderLate(store, late)}</div>`;
    const [equal] = this.equals(store);
    if (!equal) return nothing;
    return html`<div role="status">${this.renderName(store, equal)}</div>`;
  }

  private renderLate(store: LibraryStore, late: LateRound) {
    const { round, acts } = late;
    const { places, notes } = lateReadings(round, acts);
    const label = store.reed(round.reedId)?.label ?? 'a reed that is gone';
    const pass = store.passesOf(round.reedId).find(({ id }) => id === round.closedAs);
    const what = [
      places.length > 0 && `readings of ${counted(places.length, 'place')}`,
      notes.length > 0 && counted(notes.length, 'note'),
    ];
    const words = what.filter(Boolean).join(' and ') || 'corrections that change no reading';
    return html`<section aria-label="Late readings">
      <div>
        <p>
          From another device came ${words} of a round of ${label} that had become pass ${round.passIndex} by
          then. ${pass ? 'They are in no figure yet.' : 'That pass is not in use any more.'}
        </p>
        ${places.length > 0 ? this.renderPlaces(store, places) : nothing}
      </div>
      ${
        pass
          ? html`<a href=${hrefOf({ at: 'bench', reedId: round.reedId, question: 'there', pass: pass.index })}
                >Look at the pass</a
              >
              <button ?disabled=${this.busy} @click=${() => this.takeIn(store, late, true)}>
                Take them in
              </button>`
          : nothing
      }
      <button ?disabled=${this.busy} @click=${() => this.takeIn(store, late, false)}>Leave them out</button>
    </section>`;
  }

  private renderPlaces({ choices }: LibraryStore, places: ReturnType<typeof lateReadings>['places']) {
    const values = (readings: (typeof places)[number]['now']) =>
      readings
        .map(({ thicknessMm, flag }) =>
          thicknessMm === undefined ? flag : readingText(thicknessMm, choices),
        )
        .join(', ') || 'nothing';
    return html`<details>
      <summary>Which, in ${UNIT_WORDS[choices.unit].caption}</summary>
      <ul>
        ${places.map(
          ({ station, was, now }) =>
            html`<li>
              ${placeWords(station, choices)}:
              ${values(now)}${was.length > 0 ? ` (in the pass ${values(was)})` : nothing}
            </li>`,
        )}
      </ul>
    </details>`;
  }

  private renderName(store: LibraryStore, asked: NameQuestion) {
    if (asked.of === 'hidden') return this.renderHidden(store, asked);
    return asked.of === 'label' ? this.renderLabels(store, asked) : this.renderNumbers(store, asked);
  }

  private renderHidden(store: LibraryStore, asked: Extract<NameQuestion, { of: 'hidden' }>) {
    const { reed } = asked;
    const label = withoutHidden(reed.label) || freeLabel('?', new Set(store.reeds.map((one) => one.label)));
    return html`<section aria-label="A label with more than can be seen">
      <p>The label ${label} has more than can be seen: ${hiddenIn(reed.label).join(', ')}.</p>
      <button
        ?disabled=${this.busy}
        @click=${() => this.run(() => store.keep([{ ...reed, label }], `the label ${label}`))}
      >
        Leave that out
      </button>
      <button ?disabled=${this.busy} @click=${() => this.leave(store, asked)}>Keep it as it is</button>
    </section>`;
  }

  private renderLabels(store: LibraryStore, equal: Extract<NameQuestion, { of: 'label' }>) {
    const last = equal.reeds.at(-1)!;
    const taken = new Set(store.reeds.map(({ label }) => label));
    const read = ({ id }: Reed) => {
      const { length } = store.passesOf(id);
      return length === 0 ? 'not read yet' : `with ${counted(length, 'pass', 'passes')}`;
    };
    const words = equal.reeds.map((reed) => `one begun on ${dayWords(reed.createdAt)}, ${read(reed)}`);
    return html`<section aria-label="Reeds of one label">
      <div>
        <p>${equal.reeds.length} reeds are called ${last.label}: ${words.join('; ')}.</p>
        ${this.problem ? html`<p role="alert">${this.problem}</p>` : nothing}
      </div>
      <label
        >The later one is <input .value=${freeLabel(last.label, taken)} maxlength="80" autocomplete="off"
      /></label>
      <button ?disabled=${this.busy} @click=${() => this.rename(store, last)}>Call it so</button>
      <button ?disabled=${this.busy} @click=${() => this.leave(store, equal)}>Leave both</button>
    </section>`;
  }

  private renderNumbers(store: LibraryStore, equal: Extract<NameQuestion, { of: 'number' }>) {
    const { reed, passes } = equal;
    const words = passes.map(
      ({ takenAt, createdAt, readingCount }) =>
        `one of ${dayWords(takenAt ?? createdAt)} with ${counted(readingCount, 'reading')}`,
    );
    const renumber = () =>
      this.run(() =>
        store.keep(renumbered(store.passesOf(reed.id)), `the numbers of ${reed.label}’s passes`),
      );
    return html`<section aria-label="Passes of one number">
      <p>
        ${reed.label} has ${passes.length} passes numbered ${passes[0]?.index}: ${words.join('; ')}. Numbered
        one after the other, by when they were read, later passes move on.
      </p>
      <a href=${hrefOf({ at: 'bench', reedId: reed.id, question: 'there' })}>Look at them</a>
      <button ?disabled=${this.busy} @click=${renumber}>Number them so</button>
      <button ?disabled=${this.busy} @click=${() => this.leave(store, equal)}>Leave both</button>
    </section>`;
  }
}
