import { html, nothing } from 'lit';
import { customElement, query, state } from 'lit/decorators.js';
import type { Gauge } from '../../shared/gauge.ts';
import { dayNumber } from '../../shared/moment.ts';
import type { Stamp } from '../../shared/stamp.ts';
import { LONG_SCRAPE, type StyleTemplate } from '../../src/blade/starting-styles.ts';
import { checkHistory } from '../../src/gauge/calibration.ts';
import { judgeGauge, zeroLimitMm, type GaugeJudgement } from '../../src/gauge/judge-gauge.ts';
import { zoneSlopes } from '../../src/gauge/zone-slopes.ts';
import { reedOfLastTime } from '../../src/reed/last-time.ts';
import { numberText, plainText, UNIT_WORDS, withUnit } from '../../src/words/format.ts';
import { figureText } from '../figure-text.ts';
import { countFor, COUNT_WORDS, type GaugeCount } from '../../src/round/gauge-count.ts';
import { typedZero } from '../../src/round/typed-zero.ts';
import { LibraryController } from '../store/library-controller.ts';
import { controls, tables } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
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
import { styles } from './gauge-page.styles.ts';
import './check-chart.ts';
import './known-check.ts';
import './known-line.ts';
import './repeat-study.ts';
import './study-points.ts';
import './causes-chart.ts';
import { marks } from '../marks/marks.styles.ts';
import { dayWords } from '../../src/words/day-words.ts';

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
export class GaugePage extends BenchElement {
  static override styles = [controls, tables, gaugeStyles, marks, styles];

  private readonly library = new LibraryController(this);
  @query('[name=zero]') private readonly zero!: HTMLInputElement;
  @state() private problem = '';

  /** The style of the reed of last time: its zones are judged. */
  private get template(): StyleTemplate {
    const store = this.library.store!;
    const alive = store.reeds.filter(({ state: now }) => now !== 'retired');
    const passes = alive.flatMap(({ id }) => store.passesOf(id));
    const reed = reedOfLastTime(alive, passes, store.snapshot.live.round);
    return store.styleOf(reed?.styleId ?? LONG_SCRAPE.key);
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
    const { gauge } = this;
    const zones = zoneSlopes(this.template);
    const judged = gauge && judgeGauge(gauge, zones);
    const now = judged ?? judgeGauge(USUAL_GAUGE, zones);
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
        <section class="plate">${this.renderBelievable(now, judged?.from ?? 'usual')}</section>
        <section class="plate">${this.renderChecks(gauge, now)}</section>
        <section class="plate">${this.renderStudy(gauge, now.sdMm)}</section>
        <section class="plate">${this.renderKnown(gauge, now.sdMm)}</section>
        <div class="writing">${this.renderForms(gauge, now.sdMm)}</div>
      </div>`;
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

  /** What is written down, folded but for the zero: the place is for looking. */
  private renderForms(gauge: Gauge | undefined, sdMm: number) {
    const { stepMm } = gauge ?? NEW_GAUGE;
    const { writing } = this.library;
    const source = this.library.store!.gauge;
    return html`<section>
        <bench-gauge-facts .gauge=${gauge ?? NEW_GAUGE}></bench-gauge-facts>
      </section>
      <details>
        <summary>Read known thicknesses</summary>
        <bench-known-check
          .writing=${writing}
          .count=${this.count}
          .stepMm=${stepMm}
          .sdMm=${sdMm}
        ></bench-known-check>
      </details>
      <details>
        <summary>A gauge on a cable${source?.state.is === 'open' ? ', heard' : ''}</summary>
        <bench-gauge-connection
          .connection=${gauge?.connection}
          .decimal=${writing.decimal}
          .source=${source}
          @bench-gauge-plug=${({ gauge: plugged }: GaugePlugEvent) => this.library.store?.useGauge(plugged)}
        ></bench-gauge-connection>
      </details>
      <details>
        <summary>Smallest step of the display</summary>
        <label>
          Step
          <select @change=${this.handleStep}>
            ${[0.01, 0.005, 0.002, 0.001].map(
              (step) =>
                html`<option value=${step} ?selected=${step === stepMm}>
                  ${withUnit(plainText(step, writing), 'mm')}
                </option>`,
            )}
          </select>
        </label>
      </details>
      <bench-caution about="ball"></bench-caution>`;
  }

  private renderZero() {
    return html`<form class="row" @submit=${this.handleZero}>
        <label
          >Bare tongue, after three drops<input name="zero" inputmode="decimal" autocomplete="off"
        /></label>
        <button>Keep the zero</button>
      </form>
      <p class="problem" role="status">${this.problem}</p>`;
  }

  private renderBelievable(
    { believable, sdMm, dof, placementMm }: GaugeJudgement,
    from: GaugeJudgement['from'],
  ) {
    const study = Number.isFinite(dof) ? `, ${dof} repeats` : '';
    return html`<h2>
        What can be told today
        <small>smallest change between two readings, 95 %, ${this.template.name.toLowerCase()}</small>
      </h2>
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
    return html`<bench-repeat-study
        .count=${this.count}
        .decimal=${this.library.choices.decimal}
      ></bench-repeat-study>
      <bench-study-points
        .study=${gauge?.repeatStudies.at(-1)}
        .sdMm=${sdMm}
        .writing=${this.library.writing}
      ></bench-study-points>`;
  }

  private renderChecks(gauge: Gauge | undefined, judged: GaugeJudgement) {
    const { checks, stepMm } = gauge ?? NEW_GAUGE;
    return html`<h2>
        Checks <small>zero of every sitting, ${UNIT_WORDS[this.library.writing.unit].caption}</small>
      </h2>
      ${this.renderZero()}
      <bench-check-chart
        .checks=${checks}
        .history=${checkHistory(checks, stepMm, judged.sdMm)}
        .limitMm=${zeroLimitMm(judged)}
        .stepMm=${stepMm}
        .sdMm=${judged.sdMm}
        .today=${dayNumber(this.library.store!.ledger.now())}
        .writing=${this.library.writing}
      ></bench-check-chart>`;
  }

  private renderKnown(gauge: Gauge | undefined, sdMm: number) {
    const last = gauge?.checks.findLast(({ known }) => known.length > 1);
    return html`<h2>Known thicknesses <small>${last ? dayWords(last.takenAt) : ''}</small></h2>
      ${
        last
          ? html`<bench-known-line
              .check=${last}
              .stepMm=${gauge!.stepMm}
              .sdMm=${sdMm}
              .writing=${this.library.writing}
            ></bench-known-line>`
          : html`<p class="quiet">
              None yet: the line through them stands here, with what it leaves over. Read two feelers, below.
            </p>`
      }`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-gauge-page': GaugePage;
  }
}
