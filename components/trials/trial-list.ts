import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Trial } from '../../shared/trial.ts';
import { COVERAGE, numberText, signedText, type Writing } from '../../src/words/format.ts';
import { base } from '../theme/base.styles.ts';
import { ThemeController } from '../theme/theme-controller.ts';
import { dayWords } from '../day-words.ts';

/** Trials of a reed, the latest first, each with the pass that it followed. */
@customElement('bench-trial-list')
export class TrialList extends LitElement {
  static override styles = [
    base,
    css`
      ul {
        margin: 0;
        padding: 0;
        list-style: none;
      }
      li {
        padding: var(--bench-space-2) 0;
        border-top: 1px solid var(--bench-rule);
      }
      p {
        margin: 0;
      }
      em {
        font: italic var(--bench-font-aside);
      }
      .facts {
        color: var(--bench-ink2);
        font: var(--bench-font-caption);
      }
    `,
  ];

  protected readonly theme = new ThemeController(this);

  @property({ attribute: false }) trials: readonly Trial[] = [];
  @property() decimal: Writing['decimal'] = 'point';
  @property({ type: Number, attribute: 'standard-hz' }) standardHz = 442;

  override render() {
    if (this.trials.length === 0) return nothing;
    return html`<ul>
      ${[...this.trials].reverse().map(
        (trial) =>
          html`<li>
            <p>
              ${dayWords(trial.playedAt)}${trial.afterPass === undefined ? '' : `, after pass ${trial.afterPass}`}${trial.verdict ? `: ${trial.verdict}` : ''}
              ${trial.words ? html`<em>${trial.words}</em>` : nothing}
            </p>
            ${this.facts(trial).map((fact) => html`<p class="facts">${fact}</p>`)}
          </li>`,
      )}
    </ul>`;
  }

  private facts(trial: Trial): string[] {
    const number = (value: number | undefined, digits: number, before: string, after = '') =>
      value === undefined ? undefined : `${before} ${numberText(value, digits, this)}${after}`;
    const scales = [
      number(trial.response, 0, 'response'),
      number(trial.resistance, 0, 'resistance'),
      number(trial.stability, 0, 'stability'),
      number(trial.dark, 0, 'depth'),
      number(trial.full, 0, 'fullness'),
      number(trial.openingMm, 2, 'opening', '\u00a0mm'),
      number(trial.minutes, 0, 'played', '\u00a0min'),
    ];
    const pitch = trial.pitchCents.map(({ note, cents }) => `${note} ${signedText(cents, 0, this)}`);
    const air = [
      trial.place,
      number(trial.temperatureC, 0, '', '\u00a0°C'),
      number(trial.humidityPct, 0, '', '\u00a0%'),
      number(trial.elevationM, 0, '', '\u00a0m'),
    ];
    return [
      this.crowWords(trial.crow),
      pitch.length > 0 ? `${pitch.join(', ')} cents at A ${this.standardHz}` : '',
      joined(scales),
      joined(air),
    ].filter(Boolean);
  }

  private crowWords(crow: Trial['crow']): string {
    if (!crow) return '';
    const { lowestNote, cents, octaves, rattle, from, uCents, wanderCents, octaveBalanceDb } = crow;
    const doubt = uCents === undefined ? '' : ` ±${numberText(Math.max(1, COVERAGE * uCents), 0, this)}`;
    const parts = [
      [lowestNote, cents === undefined ? '' : `${signedText(cents, 0, this)}${doubt} cents`]
        .filter(Boolean)
        .join(' '),
      octaves === undefined ? '' : `${octaves} ${octaves === 1 ? 'octave' : 'octaves'}`,
      rattle ? `rattle ${rattle}` : '',
      wanderCents === undefined ? '' : `wandered by ${numberText(wanderCents, 1, this)} cents`,
      octaveBalanceDb === undefined ? '' : `octave ${signedText(octaveBalanceDb, 1, this)}\u00a0dB`,
      from === 'microphone' ? 'by microphone' : '',
    ];
    return `Crow ${joined(parts)}`;
  }
}

const joined = (parts: readonly (string | undefined)[]) =>
  parts
    .filter(Boolean)
    .map((part) => part!.trim())
    .join(', ');

declare global {
  interface HTMLElementTagNameMap {
    'bench-trial-list': TrialList;
  }
}
