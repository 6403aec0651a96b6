import { html, LitElement } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { BenchedReed } from '../../src/answers/benched-reed.ts';
import type { Writing } from '../../src/words/format.ts';
import type { FilmFrame } from '../passes/pass-film.ts';
import '../passes/pass-film.ts';
import { base } from '../theme/base.styles.ts';
import { WhenSeen } from '../when-seen.ts';
import { thicknessPlate } from './plate-data.ts';

/** A reed's thickness through all its passes. Its maps are worked out when it is first seen, not before. */
@customElement('bench-reed-film')
export class ReedFilm extends LitElement {
  static override styles = [base];

  protected readonly seen = new WhenSeen(this, () => this.begin());
  private frames: readonly FilmFrame[] = [];
  private shown: BenchedReed | undefined;

  @property({ attribute: false }) benched: BenchedReed | undefined;
  @property({ attribute: false }) writing: Writing = { unit: 'hundredths', decimal: 'point' };

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

  override render() {
    if (this.frames.length === 0 || this.benched !== this.shown) return html`<p>Working out the passes.</p>`;
    return html`<bench-pass-film
      .frames=${this.frames}
      .unit=${this.writing.unit}
      .decimal=${this.writing.decimal}
    ></bench-pass-film>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-reed-film': ReedFilm;
  }
}
