import { html, nothing, type PropertyValues } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import type { Place } from '../../shared/blade.ts';
import { numberText, stationText, type NumberFormat } from '../../src/words/format.ts';
import { download } from '../setup/download.ts';
import { adjusters, controls } from '../theme/base.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import './light-dial.ts';
import { lightWords, type LightTurnEvent } from './light-dial.ts';
import { type Relief, type ReliefTurnEvent } from './relief.ts';
import './relief.ts';
import './relief-leader.ts';
import type { Led } from './relief-leader.ts';
import { styles } from './relief-print.styles.ts';
import type { Print } from '../map/prints.ts';
import { ENLARGED, FIRST_LIGHT, type ReliefBlade, type ReliefView } from './relief-data.ts';

const CUT = { atMm: 10, stepMm: 0.5 };
/** The standard views, laid out as the reed lies. */
const WORDS: readonly (readonly [view: ReliefView, words: string])[] = [
  ['tip', 'From the tip'],
  ['side 1', 'Side 1'],
  ['above', 'From above'],
  ['side 2', 'Side 2'],
  ['below', 'From below'],
  ['cork', 'From the cork'],
];

/**
 * The reed as a body with what is needed to look at it: views, light, readings, floor, a cut, the whole screen, a picture
 * to keep.
 *
 * Keys: `F` fills the screen, Escape returns; those of `bench-relief` while the picture has the focus.
 *
 * @event bench-map-probe - As of `bench-relief`.
 * @slot - What is shown where there is no WebGL: the flat map.
 * @slot choice - Stands first under the picture.
 */
@customElement('bench-relief-print')
export class ReliefPrint extends BenchElement {
  static override styles = [controls, adjusters, styles];

  @query('bench-relief') private readonly relief!: Relief;
  @query('.lamp bench-relief') private readonly twin!: Relief | null;

  /** Chosen by the reader; until then readings stand on the opened reed where nothing else is printed. */
  @state() private showsReadings: boolean | undefined;
  @state() private showsFloor = false;
  @state() private showsCane = false;
  @state() private isCut = false;
  @state() private cutAtMm = CUT.atMm;
  /** How far what was taken off is lifted: 0 on its place, 1 in full. */
  @state() private lift = 1;
  @state() private isEven = false;
  @state() private isFull = false;
  /** Views, light and what is asked for seldom are in sight. */
  @state() private isOpen = false;
  @state() private lightAngle = FIRST_LIGHT;
  /** Where the picked place stands on the picture. */
  @state() private led: Led | undefined;
  /** The same list as long as nothing of it changes, so that a moving probe does not build the scene anew. */
  private drawn: readonly ReliefBlade[] = [];

  @property({ attribute: false }) blades: readonly ReliefBlade[] = [];
  /** The same blades against the lamp: a small twin that turns along. */
  @property({ attribute: false }) lamp: readonly ReliefBlade[] = [];
  @property() stance: Print = 'opened';
  @property({ attribute: false }) writing: NumberFormat = { unit: 'hundredths', decimal: 'point' };
  @property({ attribute: false }) probe: Place | undefined;
  /** What the probe finds there, in words. */
  @property({ attribute: 'probe-text' }) probeText = '';
  @property({ type: Number, attribute: 'clip-mm' }) clipMm: number | undefined;
  @property({ attribute: 'file-name' }) fileName = 'relief';
  /** The picture in words, for those who cannot see it. */
  @property() label = 'The reed as a body';

  override connectedCallback() {
    super.connectedCallback();
    this.addEventListener('keydown', this.handleKey);
    this.addEventListener('fullscreenchange', this.handleFull);
  }

  override willUpdate(changed: PropertyValues) {
    if (!['blades', 'showsFloor', 'showsCane'].some((name) => changed.has(name))) return;
    const { showsFloor, showsCane } = this;
    this.drawn = this.blades.map(({ floorMm, originalMm, ...blade }) => ({
      ...blade,
      ...(floorMm && (showsFloor || blade.print?.is === 'strokes') && { floorMm }),
      ...(originalMm && showsCane && { originalMm }),
    }));
  }

  private get readings(): boolean {
    return this.showsReadings ?? (this.stance === 'opened' && !this.blades.some(({ print }) => print));
  }

  /** What the picture says of itself: from where it is seen, what is enlarged, what is assumed. */
  private get datum(): string {
    const arch = this.blades[0]?.arch;
    const assumed = [
      ...(arch?.openingMm === undefined ? ['opening'] : []),
      ...(arch?.gougeRadiusMm === undefined ? ['gouge'] : []),
    ];
    const isOnStaple = this.stance === 'staple';
    const where = `Seen from the cork: ${isOnStaple ? 'A above, side 1 left' : 'A left, B right'}.`;
    const short = isOnStaple ? '; thread, staple and cork drawn short' : '';
    const differences = this.blades.some(({ print }) => print && 'difference' in print)
      ? `, differences × ${ENLARGED.difference}`
      : '';
    const spare = this.blades.some(({ print, floorMm }) => print?.is === 'strokes' && floorMm)
      ? ' Figures: what stands over the floor.'
      : '';
    const thickness = numberText(ENLARGED.thickness, 1, this.writing);
    return `${where} Thickness × ${thickness}${differences}${short}${assumed.length > 0 ? `; usual ${assumed.join(' and ')} assumed` : ''}.${spare}`;
  }

  private readonly handleKey = (event: KeyboardEvent) => {
    if (event.key.toLowerCase() !== 'f' || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    event.stopPropagation();
    void this.fill();
  };

  private readonly handleTurn = ({ angles }: ReliefTurnEvent) => {
    this.twin?.turnTo(angles);
    this.led = this.probe && this.relief.where(this.probe);
  };

  private readonly handleFull = () => {
    this.isFull = this.ownerDocument.fullscreenElement !== null;
  };

  /** Fills the screen, or goes back to the page. */
  async fill(): Promise<void> {
    const { ownerDocument } = this;
    if (ownerDocument.fullscreenElement) await ownerDocument.exitFullscreen();
    else await this.requestFullscreen();
    this.relief.shadowRoot?.querySelector('canvas')?.focus();
  }

  /** Keeps the reed as it stands as a binary glTF file, for other viewers. */
  private async saveBody() {
    const { writeGlb } = await import('../../src/exchange/surfaces/glb.ts');
    download(`${this.fileName}.glb`, writeGlb(this.relief.solids()), 'model/gltf-binary');
  }

  private readonly handleLight = ({ angle }: LightTurnEvent) => {
    this.lightAngle = angle;
    this.isEven = false;
  };

  override render() {
    if (this.blades.length === 0) return nothing;
    const { writing } = this;
    const hasLamp = this.lamp.length === 2 && this.stance === 'staple';
    return html`<div class="head">
        <p part="words">${this.datum}</p>
        <p class="probe" role="status">${this.probeText}</p>
      </div>
      <div class="body">
        <div class="picture">
          <bench-relief
            @bench-relief-turn=${this.handleTurn}
            .blades=${this.drawn}
            .stance=${this.stance}
            .unit=${writing.unit}
            .decimal=${writing.decimal}
            .probe=${this.probe}
            .lift=${this.lift}
            .clipMm=${this.clipMm}
            .cutAtMm=${this.isCut ? this.cutAtMm : undefined}
            ?readings=${this.readings}
            ?even-light=${this.isEven}
            .lightAngle=${this.lightAngle}
            label=${this.label}
            ><slot></slot
          ></bench-relief>
          <bench-relief-leader
            text=${this.probeText}
            stance=${this.stance}
            .at=${this.led}
          ></bench-relief-leader>
          ${hasLamp ? this.renderLamp() : nothing}
          ${this.blades.some(({ print }) => print?.is === 'lifted') ? this.renderLift() : nothing}
        </div>
        <div class="tools">
          <slot name="choice"></slot>
          ${this.renderSwitches()}
          <button class=${hasLamp ? 'fill lit' : 'fill'} @click=${this.fill}>
            ${
              this.isFull
                ? html`Back <span class="said">to the page</span> <kbd>Esc</kbd>`
                : html`Fill <span class="said">the screen</span> <kbd>F</kbd>`
            }
          </button>
          <button
            class="more"
            aria-expanded=${this.isOpen || this.isFull}
            aria-controls="more"
            @click=${() => (this.isOpen = !this.isOpen)}
          >
            More
          </button>
          ${this.renderMore()}
        </div>
      </div>`;
  }

  private renderMore() {
    return html`<div class="open" id="more" ?hidden=${!this.isOpen && !this.isFull}>
      <div class="views" role="group" aria-label="Look">
        ${WORDS.map(
          ([view, words]) =>
            html`<button class=${view.replace(' ', '-')} @click=${() => this.relief.look(view)}>
              ${words}
            </button>`,
        )}
      </div>
      <div class="light">
        <bench-light-dial .angle=${this.lightAngle} @bench-light-turn=${this.handleLight}></bench-light-dial>
        <span>${this.isEven ? 'Even light' : `Light ${lightWords(this.lightAngle)}`}</span>
        ${this.renderSwitch('Even light', this.isEven, (on) => (this.isEven = on))}
      </div>
      ${
        this.blades.some(({ originalMm }) => originalMm)
          ? this.renderSwitch('Cane as gouged', this.showsCane, (on) => (this.showsCane = on))
          : nothing
      }
      ${this.renderSwitch('Cut across', this.isCut, (on) => (this.isCut = on))}
      ${this.isCut ? this.renderCut() : nothing}
      <button @click=${this.saveBody}>Save as glTF</button>
    </div>`;
  }

  private renderLamp() {
    return html`<figure class="lamp">
      <figcaption part="words"><strong>The lamp</strong> through both blades</figcaption>
      <bench-relief .blades=${this.lamp} stance="staple" label="The reed against the lamp"></bench-relief>
      <p part="words">Turns with the reed; worked out. Light cannot tell which blade is thin.</p>
    </figure>`;
  }

  private renderSwitches() {
    return html`<div class="switches">
      ${this.renderSwitch('Readings', this.readings, (on) => (this.showsReadings = on))}
      ${
        this.blades.some(({ floorMm }) => floorMm)
          ? this.renderSwitch('Floor', this.showsFloor, (on) => (this.showsFloor = on))
          : nothing
      }
    </div>`;
  }

  private renderSwitch(words: string, isOn: boolean, change: (on: boolean) => void) {
    return html`<button aria-pressed=${isOn} @click=${() => change(!isOn)}>${words}</button>`;
  }

  private renderLift() {
    const handle = (event: Event) => (this.lift = (event.target as HTMLInputElement).valueAsNumber);
    return html`<label class="lift"
      >Lift
      <input
        type="range"
        min="0"
        max="1"
        step="0.05"
        aria-label="Lift what was taken off"
        aria-valuetext=${this.lift === 0 ? 'laid back on its place' : `${Math.round(100 * this.lift)} %`}
        .value=${String(this.lift)}
        @input=${handle}
    /></label>`;
  }

  private renderCut() {
    const longest = Math.max(...this.blades.map(({ bladeLengthMm }) => bladeLengthMm));
    const handle = (event: Event) => (this.cutAtMm = (event.target as HTMLInputElement).valueAsNumber);
    const where = stationText(this.cutAtMm, this.writing);
    return html`<label
      >Cut at
      <input
        type="range"
        min="0"
        max=${longest}
        step=${CUT.stepMm}
        aria-valuetext=${`${where} from the tip`}
        .value=${String(this.cutAtMm)}
        @input=${handle}
      />
      ${where}</label
    >`;
  }
}
