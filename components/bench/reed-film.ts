import { html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { FittedReed } from '../../src/answers/fitted-reed.ts';
import type { NumberFormat } from '../../src/words/format.ts';
import type { FilmFrame } from '../passes/pass-film.ts';
import '../passes/pass-film.ts';
import type { OriginalCane } from '../../src/cane/original-cane.ts';
import { PatientWork } from '../bring-in/patient-work.ts';
import { download } from '../setup/download.ts';
import { controls } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { WhenSeen } from '../when-seen.ts';
import { thicknessPlate } from './plate-data.ts';

/** A reed's thickness through all its passes. Its maps are worked out when it is first seen, not before. */
@customElement('bench-reed-film')
export class ReedFilm extends BenchElement {
  static override styles = controls;

  private readonly filming = new PatientWork(this);
  protected readonly seen = new WhenSeen(this, () => this.begin());
  private frames: readonly FilmFrame[] = [];
  private shown: FittedReed | undefined;

  @property({ attribute: false }) benched: FittedReed | undefined;
  @property({ attribute: false }) writing: NumberFormat = { unit: 'hundredths', decimal: 'point' };

  /** The cane that the blades were made of, where its gouge is known. */
  @property({ attribute: false }) original: OriginalCane | undefined;
  @state() private problem = '';

  private begin() {
    const { benched } = this;
    if (!benched?.model || benched === this.shown) return;
    this.shown = benched;
    this.frames = benched.assembled.passes.map(({ index }, pass) => {
      const { A, B } = thicknessPlate(benched, pass);
      return { title: `Pass ${index}`, ...(A && { a: A }), ...(B && { b: B }) };
    });
    this.requestUpdate();
  }

  private async saveTurning() {
    const { benched, original, writing } = this;
    if (!benched) return;
    this.problem = '';
    try {
      const { turningFilm } = await import('./turning-film.ts');
      const reed = { benched, original, writing, theme: this.theme.name };
      const film = await this.filming.run((patience) => turningFilm(reed, patience));
      if (film) download(`${benched.reed.label} turning.zip`, film, 'application/zip');
    } catch {
      this.problem =
        'This device cannot draw the relief, so it cannot film it. The flat film shows the same figures.';
    }
  }

  private renderTurning() {
    const { share } = this.filming;
    if (share === undefined)
      return html`<button @click=${this.saveTurning}>Save it as a turning reed</button>
        <p class="note">Numbered pictures and their captions in one zip file.</p>`;
    return html`<label
        >Drawing, ${Math.floor(100 * share)} % <progress max="1" .value=${share}></progress
      ></label>
      <button @click=${() => this.filming.cancel()}>Cancel</button>`;
  }

  override render() {
    if (this.frames.length === 0 || this.benched !== this.shown) return html`<p>Working out the passes.</p>`;
    return html`<bench-pass-film
        .frames=${this.frames}
        .unit=${this.writing.unit}
        .decimal=${this.writing.decimal}
      ></bench-pass-film>
      <div>${this.renderTurning()}</div>
      ${this.problem ? html`<p role="alert">${this.problem}</p>` : nothing}`;
  }
}
