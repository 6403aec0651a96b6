import { css, html, nothing } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import type { HabitDocument } from '../../shared/habit.ts';
import { STARTING_STYLES } from '../../src/blade/starting-styles.ts';
import type { Habit } from '../../src/plan/habits.ts';
import { ownHabits, whoSays, type OwnHabit } from '../../src/plan/own-habits.ts';
import { LibraryController } from '../store/library-controller.ts';
import { controls } from '../theme/base.styles.ts';
import { forms, heads } from '../theme/forms.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import './habit-form.ts';
import type { HabitTypedEvent } from './habit-form.ts';

/** What a row says, without what the library adds to it. */
function contentOf(habit: OwnHabit): Habit {
  const content = { ...habit };
  delete content.own;
  return content;
}

/** The maker's own table of what is heard, where to look and what to try: rows can be changed, switched off and added. */
@customElement('bench-own-habits')
export class OwnHabits extends BenchElement {
  static override styles = [
    controls,
    forms,
    heads,
    css`
      article {
        display: grid;
        gap: var(--bench-space-2);
        padding: var(--bench-space-3) 0;
        border-bottom: 1px solid var(--bench-rule);
      }
      .head {
        gap: var(--bench-space-3);
      }
      h3 {
        margin: 0;
        font: var(--bench-font-aside);
      }
      article.off h3,
      article.off p {
        color: var(--bench-ink3);
      }
      p {
        margin: 0;
        color: var(--bench-ink2);
      }
    `,
  ];

  private readonly library = new LibraryController(this);
  @state() private changing: string | undefined;

  private keep(habit: OwnHabit, change: Partial<HabitDocument>) {
    const { store } = this.library;
    void store?.keepLatest(() => {
      const now = store.snapshot.live.habit.find(({ key }) => key === habit.key);
      return [{ kind: 'habit' as const, ...contentOf(habit), ...now, ...change }];
    }, `the row “${habit.symptom}”`);
  }

  private handleTyped(habit: OwnHabit, { typed }: HabitTypedEvent) {
    this.changing = undefined;
    this.keep({ ...habit, symptom: typed.symptom }, typed);
  }

  private handleBack({ own }: OwnHabit) {
    if (own) void this.library.store?.remove([own.id], `the row “${own.symptom}”`);
  }

  private get blank(): OwnHabit {
    return { key: `own-${this.library.store?.ledger.newId() ?? ''}`, symptom: '', lookAt: '', action: '' };
  }

  override render() {
    const { store } = this.library;
    if (!store) return nothing;
    return html`${ownHabits(store.snapshot.live.habit).map((habit) => this.renderRow(habit))}
    ${
      this.changing === 'new'
        ? this.renderForm(this.blank)
        : html`<button @click=${() => (this.changing = 'new')}>Add a row</button>`
    }`;
  }

  private renderRow(habit: OwnHabit) {
    const { key, symptom, lookAt, longScrape, shortScrape, action, risk, contested, off, own } = habit;
    const where = [
      longScrape && `On a long scrape: ${longScrape}`,
      shortScrape && `on a short scrape: ${shortScrape}`,
    ];
    return html`<article class=${off ? 'off' : ''}>
      <div class="head">
        <h3>${symptom}</h3>
        <button
          aria-pressed=${!off}
          aria-label=${`In use: ${symptom}`}
          @click=${() => this.keep(habit, { off: off ? undefined : true })}
        >
          In use
        </button>
      </div>
      <p>
        Look at ${lookAt}. ${where.filter(Boolean).join('; ')}${where.some(Boolean) ? '. ' : ''}Try:
        ${action}. ${risk ? `Mind: ${risk}.` : ''} ${contested ? 'Schools differ on it.' : ''}
        ${whoSays(habit)}
      </p>
      ${
        this.changing === key
          ? this.renderForm(habit)
          : html`<div>
              <button aria-label=${`Change: ${symptom}`} @click=${() => (this.changing = key)}>Change</button>
              ${
                own
                  ? html`<button
                      aria-label=${`Back to the start: ${symptom}`}
                      @click=${() => this.handleBack(habit)}
                    >
                      Back to the start
                    </button>`
                  : nothing
              }
            </div>`
      }
    </article>`;
  }

  /** Zones of all styles, each name once. */
  private get zones() {
    const all = STARTING_STYLES.flatMap(({ key }) => this.library.store!.styleOf(key).zones);
    return [...new Map(all.map(({ name, title }) => [name, title] as const))];
  }

  private renderForm(habit: OwnHabit) {
    return html`<bench-habit-form
      .habit=${habit}
      .zones=${this.zones}
      @bench-habit-typed=${(event: HabitTypedEvent) => this.handleTyped(habit, event)}
      @bench-habit-leave=${() => (this.changing = undefined)}
    ></bench-habit-form>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-own-habits': OwnHabits;
  }
}
