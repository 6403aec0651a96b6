import { css, html, nothing, type PropertyValues } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Blade } from '../../shared/blade.ts';
import { numberText, type NumberFormat } from '../../src/words/format.ts';
import { WIDTH_FACTOR } from '../map/blade-drawing.ts';
import { controls } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { LampMatchEvent } from './lamp-match-event.ts';
import { paintLight, USUAL_ATTENUATION_PER_MM, type LampReed } from './light.ts';

const PX_PER_MM = 20;
const MARGIN_PX = 12;
/** Attenuations that a maker may match, 1/mm. */
const MATCH = { least: 0.5, most: 8, step: 0.1 };

type Looked = 'both' | Blade;
const LOOKED: readonly { readonly through: Looked; readonly words: string }[] = [
  { through: 'both', words: 'both blades' },
  { through: 'A', words: 'A alone' },
  { through: 'B', words: 'B alone' },
];

/**
 * A reed held against the light, worked out from its thickness: both blades in series, before and after a pass side by side.
 * The maker matches its darkness to their own lamp once.
 *
 * @event bench-lamp-match - The maker moved the match; the owner keeps it.
 * @csspart canvas - A picture.
 */
@customElement('bench-lamp')
export class Lamp extends BenchElement {
  static override styles = [
    controls,
    css`
      .pictures {
        display: flex;
        gap: var(--bench-space-3);
        justify-content: center;
        padding: var(--bench-space-3);
        border-radius: var(--bench-radius-plate);
        /* A dark ground in every look: light is judged against the dark. */
        background: #0b0805;
        forced-color-adjust: none;
      }
      figure {
        flex: 0 1 260px;
        margin: 0;
        color: #e2c79c;
        font: var(--bench-font-caption);
        text-align: center;
      }
      canvas {
        display: block;
        width: 100%;
      }
      p,
      label {
        margin: var(--bench-space-2) 0 0;
        color: var(--bench-ink2);
        font: var(--bench-font-caption);
      }
      label {
        display: flex;
        flex-wrap: wrap;
        gap: var(--bench-space-2);
        align-items: center;
      }
      input {
        flex: 1 1 140px;
        min-height: var(--bench-touch);
        accent-color: var(--bench-ink);
      }
      .choice {
        margin-top: var(--bench-space-3);
      }
    `,
  ];

  @state() private through: Looked = 'both';

  /** The reed as it is. */
  @property({ attribute: false }) reed: LampReed = {};
  /** The same reed at an earlier pass, shown to the left of it. */
  @property({ attribute: false }) earlier: LampReed | undefined;
  /** Names of the two passes, under their pictures. */
  @property({ attribute: 'earlier-name' }) earlierName = 'before';
  @property() name = 'now';
  /** mu, 1/mm: how fast cane swallows light. */
  @property({ type: Number, attribute: 'attenuation-per-mm' }) attenuationPerMm = USUAL_ATTENUATION_PER_MM;
  @property() decimal: NumberFormat['decimal'] = 'point';

  override updated(changed: PropertyValues<this>) {
    const painted = ['reed', 'earlier', 'attenuationPerMm', 'through'] as const;
    if (!painted.some((name) => changed.has(name as keyof Lamp))) return;
    this.renderRoot.querySelectorAll('canvas').forEach((canvas) => {
      this.paint(canvas, (canvas.dataset['pass'] === 'before' ? this.earlier : this.reed) ?? {});
    });
  }

  private paint(canvas: HTMLCanvasElement, reed: LampReed) {
    const { through } = this;
    const blade = through === 'both' ? undefined : reed[through];
    const looked: LampReed = through === 'both' ? reed : blade ? { [through]: blade } : {};
    const shape = looked.A ?? looked.B;
    if (!shape) return;
    const widest = Math.max(...Array.from(shape.halfWidthMm));
    canvas.width = Math.ceil(2 * widest * PX_PER_MM * WIDTH_FACTOR) + 2 * MARGIN_PX;
    canvas.height = Math.ceil(shape.ysMm[shape.ysMm.length - 1]! * PX_PER_MM);
    const sheet = {
      width: canvas.width,
      height: canvas.height,
      pxPerMm: PX_PER_MM,
      widthFactor: WIDTH_FACTOR,
    };
    canvas.getContext('2d')!.putImageData(paintLight(looked, this.attenuationPerMm, sheet), 0, 0);
  }

  private handleMatch(event: Event) {
    const { valueAsNumber } = event.target as HTMLInputElement;
    this.dispatchEvent(new LampMatchEvent(valueAsNumber, event.type === 'change'));
  }

  override render() {
    const whole = this.through === 'both' && this.reed.A && this.reed.B;
    return html`<div class="pictures">
        ${this.earlier ? this.renderPicture('before', this.earlierName) : nothing}
        ${this.renderPicture('after', this.name)}
      </div>
      <div class="choice" role="group" aria-label="Light through">
        ${LOOKED.map(
          ({ through, words }) =>
            html`<button aria-pressed=${through === this.through} @click=${() => (this.through = through)}>
              ${words}
            </button>`,
        )}
      </div>
      <label>
        Match it to your lamp
        <input
          type="range"
          min=${MATCH.least}
          max=${MATCH.most}
          step=${MATCH.step}
          .value=${String(this.attenuationPerMm)}
          @input=${this.handleMatch}
          @change=${this.handleMatch}
        />
        ${numberText(this.attenuationPerMm, 1, this)} per mm
      </label>
      <p>
        Worked out from the thickness, not photographed. Cane scatters light, so read it as an order of
        brightness.
        ${
          whole
            ? 'Light adds up both blades: one blade heavier than the other, or left against right on both, cannot be seen in it.'
            : nothing
        }
      </p>`;
  }

  private renderPicture(pass: 'before' | 'after', name: string) {
    const through = LOOKED.find((looked) => looked.through === this.through)!.words;
    return html`<figure>
      <canvas
        part="canvas"
        data-pass=${pass}
        role="img"
        aria-label=${`The reed against the light, ${through}, ${name}: brightest where it is thinnest.`}
      ></canvas>
      <figcaption part="words">${name}</figcaption>
    </figure>`;
  }
}
