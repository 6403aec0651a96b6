import { css, html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Blade, Place } from '../../shared/blade.ts';
import type { BenchedReed } from '../../src/answers/benched-reed.ts';
import { pictureWords } from '../../src/answers/picture-words.ts';
import type { OriginalCane } from '../../src/cane/original-cane.ts';
import { stationText, UNIT_WORDS, type Writing } from '../../src/words/format.ts';
import '../charts/cross-section.ts';
import '../map/blade-map.ts';
import '../map/map-legend.ts';
import '../picture/picture.ts';
import type { ReliefBlade } from '../relief/relief-data.ts';
import '../relief/relief.ts';
import { base, controls, adjusters } from '../theme/base.styles.ts';
import { whenAtRest, WhenSeen } from '../when-seen.ts';
import { crossSection } from './cross-section-data.ts';
import { thicknessPlate, type Plate } from './plate-data.ts';
import { reliefBlades } from './relief-blades.ts';

type Shown = Blade | 'both';
const SHOWN: readonly Shown[] = ['A', 'B', 'both'];
/** Where blades are cut across at first, mm from the tip, and how finely the cut is moved. */
const CUT = { fromTipMm: 10, stepMm: 0.5 };
/** How many times larger thickness is drawn: 1 is as it is. */
const EXAGGERATION = { least: 1, most: 16, start: 8 };

/**
 * A reed after a pass as a relief: one blade or both, beside each other or facing, flat or arched, with its floor and the cane
 * it was made of, and cut across anywhere, A with what faces it.
 */
@customElement('bench-reed-relief')
export class ReedRelief extends LitElement {
  static override styles = [
    base,
    controls,
    adjusters,
    css`
      .row {
        display: flex;
        flex-wrap: wrap;
        gap: 0 var(--bench-space-4);
        align-items: center;
        margin-top: var(--bench-space-2);
      }
      .cut {
        display: flex;
      }
      .probe {
        min-height: 1.4em;
        margin: 0;
        color: var(--bench-ink2);
        font: var(--bench-font-caption);
      }
    `,
  ];

  protected readonly seen = new WhenSeen(this, () => whenAtRest(() => (this.isSeen = true)));
  private blades: readonly ReliefBlade[] = [];
  private inSight: readonly ReliefBlade[] = [];
  private plate: Plate = {};

  @state() private isSeen = false;
  @state() private shown: Shown = 'A';
  @state() private isFacing = false;
  @state() private isArched = false;
  @state() private withOriginal = false;
  @state() private withFloor = false;
  @state() private exaggeration = EXAGGERATION.start;
  @state() private isCut = false;
  @state() private cutAtMm = CUT.fromTipMm;

  @property({ attribute: false }) benched: BenchedReed | undefined;
  /** Place of the pass that is shown. */
  @property({ type: Number }) pass = 0;
  /** A place to mark, with the one that faces it. */
  @property({ attribute: false }) probe: Place | undefined;
  /** What the probe finds there, in words. */
  @property({ attribute: 'probe-text' }) probeText = '';
  /** The cane that the blades were made of, where its gouge is known. */
  @property({ attribute: false }) original: OriginalCane | undefined;
  @property({ attribute: false }) writing: Writing = { unit: 'hundredths', decimal: 'point' };

  override willUpdate(changed: PropertyValues) {
    if (!this.isSeen) return;
    const isOther = ['isSeen', 'benched', 'pass', 'withFloor', 'withOriginal', 'original'].some((name) =>
      changed.has(name),
    );
    if (isOther) this.blades = this.reliefs();
    // The same list as long as nothing of it changes, so that a moving probe does not build the scene anew.
    if (isOther || changed.has('shown')) {
      this.inSight = this.blades.filter(({ blade }) => this.shown === 'both' || blade === this.shown);
    }
  }

  private reliefs(): ReliefBlade[] {
    const { benched, pass, original } = this;
    if (!benched?.model) return [];
    this.plate = thicknessPlate(benched, pass);
    return reliefBlades(benched, pass, this.plate, {
      withFloor: this.withFloor,
      original: this.withOriginal ? original : undefined,
    });
  }

  /** The picture in words, for those who cannot see it. */
  private get words(): string {
    const [a, b] = pictureWords(this.benched!, this.pass, this.writing);
    const own = this.blades.length === 2 ? { A: a, B: b, both: `${a} ${b}` }[this.shown] : a;
    return own ?? '';
  }

  override render() {
    const { shown, writing, benched } = this;
    if (!benched || this.blades.length === 0) return nothing;
    const choices = this.blades.length === 2 ? SHOWN : this.blades.map(({ blade }) => blade);
    return html`${this.renderPicture(
        `relief, thickness drawn ${this.exaggeration} ×`,
        'relief',
        html`<bench-map-legend .unit=${writing.unit} .decimal=${writing.decimal}></bench-map-legend
          ><bench-relief
            .blades=${this.inSight}
            .exaggeration=${this.exaggeration}
            .unit=${writing.unit}
            .decimal=${writing.decimal}
            .probe=${this.probe}
            .arrangement=${this.isFacing ? 'facing' : 'beside'}
            .lay=${this.isArched ? 'arched' : 'flat'}
            .cutAtMm=${this.isCut ? this.cutAtMm : undefined}
            label=${`${shown === 'both' ? 'Relief of both blades' : `Relief of blade ${shown}`}. ${this.words}`}
          >
            ${this.inSight.map(
              ({ blade }) =>
                html`<bench-blade-map
                  .data=${this.plate[blade]}
                  .unit=${writing.unit}
                  .decimal=${writing.decimal}
                ></bench-blade-map>`,
            )}
          </bench-relief>`,
      )}
      <p class="probe" role="status">${this.probeText}</p>
      <div class="row">
        <div class="choice" role="group" aria-label="Blades shown">
          ${choices.map(
            (choice) =>
              html`<button aria-pressed=${choice === shown} @click=${() => (this.shown = choice)}>
                ${choice}
              </button>`,
          )}
        </div>
        ${
          shown === 'both'
            ? this.renderSwitch('facing', this.isFacing, (on) => (this.isFacing = on))
            : nothing
        }
        ${this.renderSwitch('arched', this.isArched, (on) => (this.isArched = on))}
        ${this.renderSwitch('floor', this.withFloor, (on) => (this.withFloor = on))}
        ${
          this.original
            ? this.renderSwitch('cane as gouged', this.withOriginal, (on) => (this.withOriginal = on))
            : nothing
        }
        ${this.renderSwitch('cut across', this.isCut, (on) => (this.isCut = on))}
      </div>
      ${this.renderExaggeration()} ${this.isCut ? this.renderCut(writing) : nothing}`;
  }

  /** A picture of the pass that can be saved. */
  private renderPicture(words: string, name: string, picture: unknown) {
    const { label, invented } = this.benched!.reed;
    const shown = this.benched!.passes[this.pass];
    return html`<bench-picture
      caption=${`${label}, pass ${shown?.index ?? this.pass}, ${words}, ${UNIT_WORDS[this.writing.unit].caption}${invented ? ' (invented)' : ''}`}
      date=${shown?.takenAt?.slice(0, 10) ?? ''}
      file-name=${`${label} ${name}`}
      >${picture}</bench-picture
    >`;
  }

  private renderSwitch(words: string, isOn: boolean, change: (on: boolean) => void) {
    const handle = (event: Event) => change((event.target as HTMLInputElement).checked);
    return html`<label><input type="checkbox" .checked=${isOn} @change=${handle} />${words}</label>`;
  }

  private renderExaggeration() {
    const { least, most } = EXAGGERATION;
    const handle = (event: Event) => (this.exaggeration = (event.target as HTMLInputElement).valueAsNumber);
    return html`<label class="cut"
      >Thickness drawn
      <input
        type="range"
        min=${least}
        max=${most}
        step="1"
        aria-valuetext=${`${this.exaggeration} times`}
        .value=${String(this.exaggeration)}
        @input=${handle}
      />
      ${this.exaggeration} ×</label
    >`;
  }

  private renderCut(writing: Writing) {
    const longest = Math.max(...this.blades.map(({ bladeLengthMm }) => bladeLengthMm));
    const handle = (event: Event) => (this.cutAtMm = (event.target as HTMLInputElement).valueAsNumber);
    const where = `${stationText(this.cutAtMm, writing)} from the tip`;
    return html`<label class="cut">
        Cut at
        <input
          type="range"
          min="0"
          max=${longest}
          step=${CUT.stepMm}
          aria-valuetext=${where}
          .value=${String(this.cutAtMm)}
          @input=${handle}
        />
        ${stationText(this.cutAtMm, writing)}
      </label>
      ${this.renderPicture(
        `cut across at ${where}, A above what faces it`,
        'cut across',
        html`<bench-cross-section
          .data=${crossSection(this.benched!, this.pass, this.cutAtMm)}
          .unit=${writing.unit}
          .decimal=${writing.decimal}
        ></bench-cross-section>`,
      )}`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-reed-relief': ReedRelief;
  }
}
