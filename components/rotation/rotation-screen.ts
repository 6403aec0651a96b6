import { css, html, LitElement, nothing } from 'lit';
import { customElement } from 'lit/decorators.js';
import type { Reed } from '../../shared/reed.ts';
import { countWord, sentence } from '../../src/words/figure-words.ts';
import { numberText, withUnit } from '../../src/words/format.ts';
import { inRotation, type InRotation } from '../../src/rotation/in-rotation.ts';
import { lasting } from '../../src/rotation/lifetimes.ts';
import { timesPlayed } from '../../src/reed/waiting.ts';
import { adviceFor } from '../../src/rotation/suggest.ts';
import { unbroken } from '../bench/question-element.ts';
import { hrefOf } from '../frame/routes.ts';
import { LibraryController } from '../store/library-controller.ts';
import { base, controls, tables } from '../theme/base.styles.ts';
import { forms, pages } from '../theme/forms.styles.ts';
import { ThemeController } from '../theme/theme-controller.ts';
import '../caution/caution.ts';
import './engagement-list.ts';
import './lasting-chart.ts';
import './played-form.ts';

const BY_WORDS = { maker: '', feel: ', it felt best there', verdict: ', by its last verdict' } as const;
const MOST_SLOTS = 60;
/** As many rows as one looks through; the rest stand in the list of all reeds. */
const MOST_ROWS = 40;

/** Which reeds are alive, what is to be played for, and how long reeds last. */
@customElement('bench-rotation')
export class RotationScreen extends LitElement {
  static override styles = [
    base,
    controls,
    tables,
    forms,
    pages,
    css`
      td,
      tbody th {
        padding-block: 2px;
      }
      td,
      thead th:not(:first-child) {
        padding-right: var(--bench-space-3);
        text-align: left;
        white-space: nowrap;
      }
      td input {
        width: 4em;
      }
      tbody th a {
        display: inline-flex;
        align-items: center;
        min-height: var(--bench-touch);
        font: var(--bench-font-aside);
      }
    `,
  ];

  protected readonly theme = new ThemeController(this);
  private readonly library = new LibraryController(this);

  private handleSlot(reed: Reed, event: Event) {
    const input = event.target as HTMLInputElement;
    const slot = Number(input.value);
    const { slot: _before, ...rest } = reed;
    const valid = Number.isInteger(slot) && slot >= 1 && slot <= MOST_SLOTS;
    if (input.value.trim() !== '' && !valid) {
      input.value = String(reed.slot ?? '');
      return;
    }
    void this.library.store?.keep([valid ? { ...rest, slot } : rest], `slot of ${reed.label}`);
  }

  override render() {
    const { store } = this.library;
    if (!store) return nothing;
    const { reed: reeds, use: uses, trial: trials, engagement: engagements, air } = store.snapshot.live;
    const now = store.ledger.now();
    const rotation = inRotation({ reeds, uses, trials }, now);
    const lived = lasting(reeds, timesPlayed(uses, trials));
    const here = [...air].sort((a, b) => Date.parse(a.at) - Date.parse(b.at)).at(-1);
    const advised = [...engagements]
      .sort((a, b) => Date.parse(a.at) - Date.parse(b.at))
      .map((engagement) => ({
        engagement,
        advice: adviceFor(engagement, { rotation, reeds, lasting: lived, ...(here && { here }), now }),
      }));
    return html`<div class="page">
      <h1>${this.words(rotation, reeds)}</h1>
      <div class="two">
        ${this.renderRows(rotation)}
        <bench-engagements .advised=${advised}></bench-engagements>
      </div>
      <bench-lasting-chart .lasting=${lived} .decimal=${this.library.writing.decimal}></bench-lasting-chart>
      <bench-caution about="mouth mould"></bench-caution>
    </div>`;
  }

  private words(rotation: readonly InRotation[], reeds: readonly Reed[]) {
    if (rotation.length === 0) return 'No reed is past the blank yet.';
    const played = rotation.filter(({ daysSince }) => daysSince !== undefined);
    const [longest] = played;
    const alive = reeds.filter(({ state }) => state !== 'retired').length;
    const all = `${sentence(countWord(alive))} ${alive === 1 ? 'reed is' : 'reeds are'} alive`;
    const count =
      alive === rotation.length ? `${all}.` : `${all}, ${countWord(rotation.length)} past the blank.`;
    return longest && longest.daysSince! > 0
      ? html`${count} <em>${unbroken(longest.reed.label)} has rested longest, ${longest.daysSince} days.</em>`
      : count;
  }

  private renderRows(rotation: readonly InRotation[]) {
    const { writing } = this.library;
    const shown = rotation.slice(0, MOST_ROWS);
    return html`<section>
      <h2>In rotation <small>the longest rested first</small></h2>
      <div class="scroll">
        <table>
          <thead>
            <tr>
              <th scope="col">Reed</th>
              <th scope="col">Slot</th>
              <th scope="col">State</th>
              <th scope="col">Played</th>
              <th scope="col">Rested</th>
              <th scope="col">Best for</th>
            </tr>
          </thead>
          <tbody>
            ${shown.map(
              ({ reed, hours, daysSince, bestFor }) =>
                html`<tr>
                  <th scope="row">
                    <a href=${hrefOf({ at: 'history', reedId: reed.id })}>${unbroken(reed.label)}</a>
                  </th>
                  <td>
                    <input
                      aria-label=${`Slot of ${reed.label}`}
                      inputmode="numeric"
                      .value=${String(reed.slot ?? '')}
                      @change=${(event: Event) => this.handleSlot(reed, event)}
                    />
                  </td>
                  <td>${reed.state}</td>
                  <td>${withUnit(numberText(hours, 1, writing), 'h')}</td>
                  <td>
                    ${daysSince === undefined ? 'never' : withUnit(String(daysSince), daysSince === 1 ? 'day' : 'days')}
                  </td>
                  <td>${bestFor ? `${bestFor.words}${BY_WORDS[bestFor.by]}` : 'not known'}</td>
                </tr>`,
            )}
          </tbody>
        </table>
      </div>
      ${
        rotation.length > shown.length
          ? html`<p class="note">
              ${rotation.length - shown.length} more are in
              <a href=${hrefOf({ at: 'find' })}>the list of all reeds</a>.
            </p>`
          : nothing
      }
      <h2>Played</h2>
      <bench-played-form .reeds=${rotation.map(({ reed }) => reed)}></bench-played-form>
    </section>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-rotation': RotationScreen;
  }
}
