import { css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { nearestNote } from '../../src/climate/pitch.ts';
import type { Crow, NoCrow } from '../../src/crow/crow.ts';
import { COVERAGE, doubtDigits, numberText, signedText, type NumberFormat } from '../../src/words/format.ts';
import { controls } from '../theme/base.styles.ts';
import { pages } from '../theme/forms.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { MicrophoneError, openMicrophone, type Microphone } from './microphone.ts';
import { ACROSS_SHADOWS } from '../across-shadows.ts';

/** Samples of one stretch: 85 ms at 48,000 a second. */
const LENGTH = 4096;
const STEP_MS = 40;
const SECONDS = 4;
/** From here on an octave is heard as out of tune. Common practice, no source. */
const OCTAVE_OFF_CENTS = 5;

/** A crow was heard. */
export class CrowHeardEvent extends Event {
  readonly crow: Crow;

  constructor(crow: Crow) {
    super('bench-crow-heard', ACROSS_SHADOWS);
    this.crow = crow;
  }
}

const NOT_HEARD: Readonly<Record<NoCrow['kind'], string>> = {
  silence:
    'Nothing was heard. Hold the reed a hand’s breadth from the microphone and crow for a second or two.',
  noise:
    'No note was found in what was heard: only noise, or a rattle without a pitch. Try again, or write what you hear.',
};

const pause = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));

/**
 * Listens to a crow through the microphone for a few seconds, and says what it heard. Nothing is recorded.
 *
 * @event bench-crow-heard - A crow was heard.
 */
@customElement('bench-crow-listener')
export class CrowListener extends BenchElement {
  static override styles = [
    controls,
    pages,
    css`
      section {
        display: flex;
        flex-wrap: wrap;
        gap: 0 var(--bench-space-3);
        align-items: center;
      }
      [role='status'] {
        order: 1;
        flex-basis: 100%;
      }
      .heard {
        margin: 0;
        font: var(--bench-font-aside);
      }
      .wrong {
        margin: 0;
        max-width: 60ch;
      }
      progress {
        width: 100%;
        max-width: 300px;
        height: 6px;
        accent-color: var(--bench-ink);
      }
    `,
  ];

  private microphone: Microphone | undefined;
  @state() private shareDone = 0;
  @state() private listening = false;
  @state() private result: Crow | NoCrow | undefined;
  @state() private trouble = '';

  @property({ type: Number, attribute: 'standard-hz' }) standardHz = 442;
  @property() decimal: NumberFormat['decimal'] = 'point';
  @property({ attribute: false }) open: (length: number) => Promise<Microphone> = openMicrophone;
  @property({ type: Number }) seconds = SECONDS;
  /** The clock that the stretches are placed by, ms. */
  @property({ attribute: false }) now: () => number = () => performance.now();

  override disconnectedCallback() {
    super.disconnectedCallback();
    this.stop();
  }

  private stop() {
    this.microphone?.close();
    this.microphone = undefined;
    this.listening = false;
  }

  private async handleListen() {
    this.trouble = '';
    this.result = undefined;
    try {
      this.microphone = await this.open(LENGTH);
      this.listening = true;
      const [{ makeEar }, { crowFrom }] = await Promise.all([
        import('../../src/crow/ear.ts'),
        import('../../src/crow/crow.ts'),
      ]);
      const { sampleRate } = this.microphone;
      const heard = await this.hear(makeEar(LENGTH, sampleRate));
      if (heard) this.take(crowFrom(heard.stretches, heard.stepS, LENGTH / sampleRate));
    } catch (error) {
      if (!(error instanceof MicrophoneError)) throw error;
      this.trouble = error.message;
    } finally {
      this.stop();
    }
  }

  /** Stretch after stretch until the time is over; undefined when the element went away meanwhile. */
  private async hear(ear: ReturnType<(typeof import('../../src/crow/ear.ts'))['makeEar']>) {
    const samples = new Float32Array(LENGTH);
    const stretches: ReturnType<typeof ear>[] = [];
    const begun = this.now();
    const passedS = () => (this.now() - begun) / 1000;
    while (passedS() < this.seconds) {
      await pause(STEP_MS);
      if (!this.microphone) return undefined;
      this.microphone.read(samples);
      stretches.push(ear(samples));
      this.shareDone = Math.min(1, passedS() / this.seconds);
    }
    return { stretches, stepS: passedS() / stretches.length };
  }

  private take(result: Crow | NoCrow) {
    this.result = result;
    if (result.kind === 'crow') this.dispatchEvent(new CrowHeardEvent(result));
  }

  override render() {
    return html`<section>
      <div>
        <button type="button" ?disabled=${this.listening} @click=${this.handleListen}>
          ${this.listening ? 'Listening' : 'Listen to the crow'}
        </button>
      </div>
      ${
        this.listening
          ? html`<progress max="1" .value=${this.shareDone} aria-label="Time of listening"></progress>`
          : nothing
      }
      <div role="status">
        ${this.trouble ? html`<p class="wrong">${this.trouble}</p>` : nothing} ${this.renderResult()}
      </div>
      <p class="quiet">${this.seconds} seconds; nothing is recorded, and nothing leaves this machine.</p>
    </section>`;
  }

  private renderResult() {
    const { result } = this;
    if (!result) return nothing;
    if (result.kind !== 'crow') return html`<p class="wrong">${NOT_HEARD[result.kind]}</p>`;
    const { note, cents } = nearestNote(result.hz, this.standardHz);
    const doubt = COVERAGE * result.uCents;
    const digits = Math.min(1, doubtDigits(doubt, 0));
    return html`<p class="heard">
        ${note} ${signedText(cents, digits, this)} ±${numberText(doubt, digits, this)} cents, at A
        ${this.standardHz}
      </p>
      <p class="quiet">${this.details(result).join('; ')}. ± is 95 %.</p>`;
  }

  private details({
    hz,
    wanderCents,
    driftCentsPerS,
    octaveBalanceDb,
    octaveOffCents = 0,
    seconds,
  }: Crow): string[] {
    const figure = ({ value, u }: { value: number; u: number }, unit: string) =>
      `${signedText(value, 1, this)} ±${numberText(COVERAGE * u, 1, this)}\u00a0${unit}`;
    const moves = Math.abs(driftCentsPerS.value) > COVERAGE * driftCentsPerS.u;
    return [
      `${numberText(hz, 1, this)}\u00a0Hz over ${numberText(seconds, 1, this)}\u00a0s`,
      `wandered by ${numberText(wanderCents, 1, this)} cents (one standard deviation)`,
      moves ? `drifted ${figure(driftCentsPerS, 'cents a second')}` : 'no drift beyond its doubt',
      octaveBalanceDb
        ? `the octave over it ${figure(octaveBalanceDb, 'dB')} beside it`
        : 'its octave was not heard',
      ...(Math.abs(octaveOffCents) >= OCTAVE_OFF_CENTS
        ? [
            `the octave ${numberText(Math.abs(octaveOffCents), 0, this)} cents ${octaveOffCents > 0 ? 'wide' : 'narrow'}`,
          ]
        : []),
    ];
  }
}

declare global {
  interface HTMLElementEventMap {
    'bench-crow-heard': CrowHeardEvent;
  }
}
