import { css, html, LitElement, nothing } from 'lit';
import { customElement, query, state } from 'lit/decorators.js';
import type { Gauge } from '../../shared/gauge.ts';
import type { Stamp } from '../../shared/stamp.ts';
import { checkHistory } from '../../src/gauge/calibration.ts';
import { judgeGauge, type GaugeJudgement } from '../../src/gauge/judge-gauge.ts';
import { numberText, plainText, UNIT_WORDS, withUnit } from '../../src/words/format.ts';
import { figureText } from '../figure-text.ts';
import { momentWords } from '../setup/moment-words.ts';
import { countFor, COUNT_WORDS, type GaugeCount } from '../../src/round/gauge-count.ts';
import { readingText } from '../../src/round/reading-text.ts';
import { typedZero } from '../../src/round/typed-zero.ts';
import '../figures-table/copy-table.ts';
import { LibraryController } from '../store/library-controller.ts';
import { base, controls, tables } from '../theme/base.styles.ts';
import { ThemeController } from '../theme/theme-controller.ts';
import '../caution/caution.ts';
import './gauge-connection.ts';
import type {
  GaugeCheckEvent,
  GaugeConnectionEvent,
  GaugeFactsEvent,
  GaugePlugEvent,
  GaugeStudyEvent,
} from './gauge-events.ts';
import './gauge-facts.ts';
import { gaugeStyles } from './gauge.styles.ts';
import { checkStrip } from './check-strip.ts';
import './known-check.ts';
import { lineAndRest } from './line-and-rest.ts';
import './repeat-study.ts';
import './study-points.ts';
import './causes-chart.ts';
import { marks } from '../marks/marks.styles.ts';
import { dayWords } from '../../src/words/day-words.ts';

const CHECKS_SHOWN = 12;
const FROM_WORDS: Readonly<Record<GaugeJudgement['from'], string>> = {
  repeats: 'from your repeat studies',
  declared: 'from what you declared',
  usual: 'assumed, as no repeats were read',
};

/** A gauge before anything is known of it. */
const NEW_GAUGE: Omit<Gauge, keyof Stamp> = {
  kind: 'gauge',
  name: 'My gauge',
  stepMm: 0.01,
  checks: [],
  repeatStudies: [],
};

/** What is usual, where nothing was checked yet. */
const USUAL_GAUGE = { stepMm: 0.01, checks: [], repeatStudies: [] };

/** The gauge's page, over the library around it: may it be trusted today? */
@customElement('bench-gauge-page')
export class GaugePage extends LitElement {
  static override styles = [
    base,
    controls,
    tables,
    gaugeStyles,
    marks,
    css`
      :host {
        padding: var(--bench-space-4) var(--bench-page-margin);
      }
      .parts {
        display: grid;
        grid-template-columns: minmax(0, 1.6fr) minmax(0, 1fr);
        gap: var(--bench-space-4) 28px;
        align-items: start;
        margin-top: var(--bench-space-4);
      }
      h1 {
        margin: 0;
        max-width: none;
      }
      summary {
        min-height: var(--bench-touch);
        align-content: center;
        cursor: pointer;
      }
      @media (max-width: 1000px) {
        .parts {
          grid-template-columns: minmax(0, 1fr);
        }
      }
      section {
        min-width: 0;
      }
      @media (max-width: 640px) {
        .later {
          display: none;
        }
      }
    `,
  ];

  private readonly library = new LibraryController(this);
  @query('[name=zero]') private readonly zero!: HTMLInputElement;
  @state() private problem = '';

  constructor() {
    super();
    new ThemeController(this);
  }

  private get gauge(): Gauge | undefined {
    return this.library.store?.snapshot.live.gauge.at(-1);
  }

  private async change(
    changed: (gauge: Omit<Gauge, keyof Stamp>, now: string) => Partial<Gauge>,
    label: string,
  ) {
    const { store } = this.library;
    if (!store) return;
    const before = this.gauge ?? NEW_GAUGE;
    await store.keep([{ ...before, ...changed(before, store.ledger.now()) }], label);
  }

  private check(check: GaugeCheckEvent['check'], label: string) {
    return this.change(({ checks }, takenAt) => ({ checks: [...checks, { ...check, takenAt }] }), label);
  }

  private handleZero(event: Event) {
    event.preventDefault();
    const zeroMm = typedZero(this.zero.value, this.count);
    if (zeroMm === undefined) {
      this.problem = `Type what the bare tongue reads, in ${COUNT_WORDS[this.count]}: 0, 1, or \u22121.`;
      return;
    }
    this.problem = '';
    this.zero.value = '';
    void this.check({ zeroMm, known: [] }, 'a zero of the gauge');
  }

  private get count(): GaugeCount {
    return countFor((this.gauge ?? NEW_GAUGE).stepMm, this.library.choices.unit);
  }

  private handleStep(event: Event) {
    const stepMm = Number((event.target as HTMLSelectElement).value);
    void this.change(() => ({ stepMm }), 'the step of the gauge');
  }

  override render() {
    if (!this.library.store) return nothing;
    const { gauge, count } = this;
    const { stepMm } = gauge ?? NEW_GAUGE;
    const judged = gauge && judgeGauge(gauge);
    return html`<h1 class="say">
        ${judged ? this.sentence(judged) : 'Not checked yet. Readings are taken as typed.'}
      </h1>
      <div
        class="parts"
        @bench-gauge-check=${(event: GaugeCheckEvent) => void this.check(event.check, 'a check of the gauge')}
        @bench-gauge-study=${({ stations }: GaugeStudyEvent) =>
          void this.change(
            ({ repeatStudies }, takenAt) => ({
              repeatStudies: [
                ...repeatStudies,
                { takenAt, stations: stations.map((station) => [...station]) },
              ],
            }),
            'a repeat study',
          )}
        @bench-gauge-facts=${({ facts }: GaugeFactsEvent) =>
          void this.change(() => facts, 'what is known of the gauge')}
        @bench-gauge-connection=${({ connection }: GaugeConnectionEvent) =>
          void this.change(() => ({ connection }), 'how the gauge is plugged in')}
      >
        <section class="plate">
          ${this.renderBelievable(judged ?? judgeGauge(USUAL_GAUGE), judged?.from ?? 'usual')}
        </section>
        <section>${this.renderZero(stepMm)}</section>
        <section class="plate">
          ${gauge ? this.renderStudy(gauge, judged?.sdMm ?? 0.005) : this.renderStudy(undefined, 0.005)}
        </section>
        <section class="plate">
          ${gauge ? this.renderHistory(gauge, judged?.sdMm ?? 0.005) : this.renderNoHistory()}
        </section>
        <section>
          <bench-gauge-facts .gauge=${gauge ?? NEW_GAUGE}></bench-gauge-facts>
          <details>
            <summary>Read known thicknesses</summary>
            <bench-known-check
              .decimal=${this.library.choices.decimal}
              .count=${count}
              .stepMm=${stepMm}
              .sdMm=${judged?.sdMm ?? 0.005}
            ></bench-known-check>
          </details>
          <bench-caution about="ball"></bench-caution>
        </section>
        <section>
          <bench-gauge-connection
            .connection=${gauge?.connection}
            .decimal=${this.library.choices.decimal}
            .source=${this.library.store.gauge}
            @bench-gauge-plug=${({ gauge: plugged }: GaugePlugEvent) => this.library.store?.useGauge(plugged)}
          ></bench-gauge-connection>
        </section>
      </div>`;
  }

  /** In the gauge's own count. */
  private counted(mm: number): string {
    const { count } = this;
    const { decimal } = this.library.choices;
    return readingText(Number(mm.toFixed(count === 'hundredths' ? 3 : 4)), { count, decimal });
  }

  private sentence({ believable }: GaugeJudgement): string {
    const [least] = believable;
    const most = believable.at(-1);
    if (!least || !most) return '';
    return `A change under ${this.thickness(least.changeMm)} is not measurable with this gauge; on the ${most.name.toLowerCase()}, under ${this.thickness(most.changeMm)}.`;
  }

  private thickness(mm: number): string {
    const { writing } = this.library;
    return withUnit(figureText(mm, writing), UNIT_WORDS[writing.unit].spoken[1]);
  }

  private renderZero(stepMm: number) {
    return html`<h2>Zero now</h2>
      <p class="quiet">Ball down on the bare tongue; lift and drop it three times; then read.</p>
      <form class="row" @submit=${this.handleZero}>
        <label>The bare tongue reads <input name="zero" inputmode="decimal" autocomplete="off" /></label>
        <button>Keep</button>
      </form>
      <p class="problem" role="status">${this.problem}</p>
      <div class="row">
        <label>
          Smallest step of the display
          <select @change=${this.handleStep}>
            ${[0.01, 0.005, 0.002, 0.001].map(
              (step) =>
                html`<option value=${step} ?selected=${step === stepMm}>
                  ${withUnit(plainText(step, this.library.choices), 'mm')}
                </option>`,
            )}
          </select>
        </label>
      </div>`;
  }

  private renderBelievable(
    { believable, sdMm, dof, placementMm }: GaugeJudgement,
    from: GaugeJudgement['from'],
  ) {
    const study = Number.isFinite(dof) ? `, ${dof} repeats` : '';
    return html`<h2>What can be told today <small>smallest change between two readings, 95 %</small></h2>
      <bench-causes-chart
        .believable=${believable}
        .writing=${this.library.writing}
        .assumed=${from === 'usual'}
      ></bench-causes-chart>
      <p class="quiet">
        Scatter of one reading ${this.thickness(sdMm)} (one standard deviation), ${FROM_WORDS[from]}${study};
        places found to ${numberText(placementMm, 2, this.library.choices)} mm; usual slopes of a finished
        blade.
      </p>`;
  }

  private renderStudy(gauge: Gauge | undefined, sdMm: number) {
    const last = gauge?.repeatStudies.at(-1);
    return html`<bench-repeat-study
        .count=${this.count}
        .decimal=${this.library.choices.decimal}
      ></bench-repeat-study>
      <bench-study-points
        .study=${last}
        .sdMm=${sdMm}
        .writing=${this.library.writing}
      ></bench-study-points>`;
  }

  private renderNoHistory() {
    return html`<h2>Checks</h2>
      <p class="quiet">None yet: a dot for every zero stands here, by day.</p>`;
  }

  private renderHistory(gauge: Gauge, sdMm: number) {
    const history = checkHistory(gauge.checks, gauge.stepMm, sdMm).slice(-CHECKS_SHOWN);
    if (history.length === 0) return this.renderNoHistory();
    const last = gauge.checks.findLast(({ known }) => known.length > 1);
    return html`${
        last
          ? html`<h2>Known thicknesses, ${dayWords(last.takenAt)}</h2>
              ${lineAndRest(last.known, gauge.stepMm, sdMm, this.library.choices)}`
          : nothing
      }
      ${checkStrip(history.flatMap(({ zeroMm }) => zeroMm ?? []))}
      <details class="twin">
        <summary>The same as a table</summary>
        <table>
          <caption>
            Checks, the last ${history.length}; zero in ${this.count}, span in per cent
            <bench-copy></bench-copy>
          </caption>
          <thead>
            <tr>
              <th scope="col">When</th>
              <th scope="col">Zero</th>
              <th scope="col">Span</th>
            </tr>
          </thead>
          <tbody>
            ${[...history].reverse().map(
              ({ takenAt, zeroMm, line, spanMoved }) =>
                html`<tr>
                  <th scope="row">${momentWords(takenAt)}</th>
                  <td>${zeroMm === undefined ? '\u2013' : this.counted(zeroMm)}</td>
                  <td>
                    ${line ? `${numberText((line.slope - 1) * 100, 1, this.library.choices)}${spanMoved ? ', moved' : ''}` : '\u2013'}
                  </td>
                </tr>`,
            )}
          </tbody>
        </table>
      </details>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-gauge-page': GaugePage;
  }
}
