import { html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { createRef, ref } from 'lit/directives/ref.js';
import type { Place } from '../../shared/blade.ts';
import type { ThicknessUnit } from '../../shared/units.ts';
import { readingText, type Writing } from '../../src/words/format.ts';
import { MapProbeEvent } from '../map/map-events.ts';
import type { ReliefScene } from '../scene/relief-scene.ts';
import { base, controls } from '../theme/base.styles.ts';
import { ThemeController } from '../theme/theme-controller.ts';
import { spineLevels, type SpineLevel } from './level-labels.ts';
import { placeLabels } from './place-labels.ts';
import { styles } from './relief.styles.ts';
import { VIEWS, type Arrangement, type Lay, type ReliefBlade, type ReliefView } from './relief-data.ts';

/** The browser cannot draw in three dimensions; the flat map has to do. */
export class ReliefUnavailableEvent extends Event {
  constructor() {
    super('bench-relief-unavailable', { bubbles: true, composed: true });
  }
}

const TURN = Math.PI / 18;
const NEARER = 0.85;
/** Distances that are written along the blade, mm. */
const LABEL_EACH_MM = 5;
const KEYS: Readonly<Record<string, readonly [turn: number, tilt: number, factor: number]>> = {
  ArrowLeft: [-TURN, 0, 1],
  ArrowRight: [TURN, 0, 1],
  ArrowUp: [0, -TURN, 1],
  ArrowDown: [0, TURN, 1],
  '+': [0, 0, NEARER],
  '-': [0, 0, 1 / NEARER],
};

/** How far Shift and an arrow move the probe: mm along, fractions of the half-width across. */
const PROBE_STEP: Readonly<Record<string, readonly [alongMm: number, across: number]>> = {
  ArrowLeft: [0, -0.1],
  ArrowRight: [0, 0.1],
  ArrowUp: [-0.5, 0],
  ArrowDown: [0.5, 0],
};
/** Where a probe moved by keys begins. */
const PROBE_START = { fromTipMm: 10, across: 0 };

const VIEW_WORDS: Readonly<Record<ReliefView, string>> = {
  map: 'as on the map',
  tip: 'from the tip',
  above: 'from above',
  left: 'from the left',
  right: 'from the right',
};

type Stage =
  { readonly is: 'waiting' } | { readonly is: 'missing' } | { readonly is: 'shown'; scene: ReliefScene };

/**
 * The blades as a relief: thickness as height, drawn larger, in the colours of the flat map, with contour lines, pins and
 * zones. Turned by pointer, touch, arrow keys and buttons. The drawing code is fetched when the picture first comes into
 * sight, and a frame is drawn only when something has changed.
 *
 * @event bench-map-probe - The pointer rests on a place of a blade, or has left the blades.
 * @event bench-relief-unavailable - The browser has no WebGL; the slotted picture is shown.
 * @slot - What is shown where there is no WebGL: a flat map or a cut across.
 * @csspart canvas - The picture.
 */
@customElement('bench-relief')
export class Relief extends LitElement {
  static override styles = [base, controls, styles];

  private readonly theme = new ThemeController(this);
  private readonly sight = new IntersectionObserver((entries) => {
    if (entries.some(({ isIntersecting }) => isIntersecting)) void this.begin();
  });
  private readonly labels = createRef<HTMLElement>();
  /** Made anew for each time on the page: a canvas that was given up cannot be taken up again. */
  private canvas: HTMLCanvasElement | undefined;
  private levels: readonly SpineLevel[] = [];

  @state() private stage: Stage = { is: 'waiting' };

  @property({ attribute: false }) blades: readonly ReliefBlade[] = [];
  @property() arrangement: Arrangement = 'beside';
  @property() lay: Lay = 'flat';
  @property() unit: ThicknessUnit = 'hundredths';
  /** The maker's decimal sign. */
  @property() decimal: Writing['decimal'] = 'point';
  /** Thickness is drawn this many times larger than width and length. */
  @property({ type: Number }) exaggeration = 8;
  /** Cuts the blades across here and takes the tip's side away, mm from the tip. */
  @property({ type: Number, attribute: 'cut-at-mm' }) cutAtMm: number | undefined;
  @property({ attribute: false }) probe: Place | undefined;
  /** What the picture shows, in a sentence or two, for those who cannot see it. */
  @property() label = 'Relief of the blades';

  override connectedCallback() {
    super.connectedCallback();
    this.sight.observe(this);
  }

  override disconnectedCallback() {
    super.disconnectedCallback();
    this.sight.disconnect();
    if (this.stage.is === 'shown') this.stage.scene.dispose();
    this.canvas = undefined;
    this.stage = { is: 'waiting' };
  }

  override willUpdate(changed: PropertyValues<this>) {
    if (changed.has('blades') || changed.has('unit'))
      this.levels = this.blades.flatMap((blade) => spineLevels(blade, this.unit));
  }

  override updated(changed: PropertyValues<this>) {
    if (this.stage.is !== 'shown' || this.blades.length === 0) return;
    const { scene } = this.stage;
    const onlyProbe = changed.size === 1 && changed.has('probe');
    if (onlyProbe) scene.showProbe(this.probe, this.theme.name);
    else scene.show(this.settings, this.theme.name);
  }

  /** Looks from one of the preset directions. */
  look(view: ReliefView): void {
    if (this.stage.is === 'shown') this.stage.scene.look(view);
  }

  /** The picture as it stands, for a file or for print; undefined while there is none. */
  snapshot(): HTMLCanvasElement | undefined {
    return this.stage.is === 'shown' ? this.stage.scene.snapshot() : undefined;
  }

  /** Frames drawn so far and draw calls of the last one. */
  get cost(): { readonly frames: number; readonly drawCalls: number } {
    if (this.stage.is !== 'shown') return { frames: 0, drawCalls: 0 };
    const { frames, drawCalls } = this.stage.scene;
    return { frames, drawCalls };
  }

  private get settings() {
    const { blades, arrangement, lay, exaggeration, unit, cutAtMm, probe } = this;
    return {
      blades,
      arrangement,
      lay,
      exaggeration,
      unit,
      ...(cutAtMm !== undefined && { cutAtMm }),
      ...(probe && { probe }),
    };
  }

  private async begin() {
    if (this.stage.is !== 'waiting' || this.canvas) return;
    const canvas = this.makeCanvas();
    this.canvas = canvas;
    const { ReliefScene: Scene } = await import('../scene/relief-scene.ts');
    if (this.canvas !== canvas || !this.isConnected) return;
    try {
      this.stage = { is: 'shown', scene: new Scene(canvas, () => this.placeLabels()) };
    } catch {
      this.stage = { is: 'missing' };
      this.dispatchEvent(new ReliefUnavailableEvent());
    }
  }

  private makeCanvas(): HTMLCanvasElement {
    const canvas = this.ownerDocument.createElement('canvas');
    canvas.tabIndex = 0;
    canvas.setAttribute('part', 'canvas');
    canvas.setAttribute('role', 'img');
    canvas.addEventListener('keydown', (event) => this.handleKey(event));
    canvas.addEventListener('pointermove', (event) => this.handlePointer(event));
    canvas.addEventListener('pointerleave', () => this.dispatchEvent(new MapProbeEvent(undefined)));
    canvas.addEventListener('focus', () => this.allowWheel(true));
    canvas.addEventListener('blur', () => this.allowWheel(false));
    return canvas;
  }

  private allowWheel(allowed: boolean) {
    if (this.stage.is === 'shown') this.stage.scene.zoomByWheel = allowed;
  }

  private handleKey(event: KeyboardEvent) {
    const step = event.shiftKey ? PROBE_STEP[event.key] : undefined;
    if (step) {
      event.preventDefault();
      this.moveProbe(...step);
      return;
    }
    const move = KEYS[event.key];
    if (!move || this.stage.is !== 'shown') return;
    event.preventDefault();
    this.stage.scene.move(...move);
  }

  private moveProbe(alongMm: number, across: number) {
    const blade = this.blades.find((one) => one.blade === this.probe?.blade) ?? this.blades[0];
    if (!blade) return;
    const held = (value: number, least: number, most: number) => Math.min(Math.max(value, least), most);
    const at = this.probe ?? PROBE_START;
    this.dispatchEvent(
      new MapProbeEvent({
        blade: blade.blade,
        fromTipMm: held(at.fromTipMm + alongMm, 0, blade.bladeLengthMm),
        across: held(Math.round((at.across + across) * 10) / 10, -1, 1),
      }),
    );
  }

  private handlePointer({ offsetX, offsetY, buttons }: PointerEvent) {
    if (this.stage.is !== 'shown' || buttons !== 0) return;
    this.dispatchEvent(new MapProbeEvent(this.stage.scene.placeUnder(offsetX, offsetY)));
  }

  private placeLabels() {
    if (this.stage.is === 'shown' && this.labels.value) placeLabels(this.labels.value, this.stage.scene);
  }

  override render() {
    if (this.stage.is === 'missing') {
      return html`<p>This browser cannot draw in three dimensions. The flat maps hold the same figures.</p>
        <slot></slot>`;
    }
    this.canvas?.setAttribute(
      'aria-label',
      `${this.label}. Thickness drawn ${this.exaggeration} times. Arrow keys turn it, plus and minus come nearer and go back, Shift and arrows move the probe.`,
    );
    return html`<div class="frame">
        ${this.stage.is === 'shown' ? this.canvas : nothing} ${this.renderLabels()}
      </div>
      ${this.renderControls()}`;
  }

  /** Labels wait out of sight until the first frame has put them in their places. */
  private renderLabels() {
    const shownFromMm = this.cutAtMm ?? 0;
    const scaled = this.arrangement === 'beside' ? this.blades.at(-1) : this.blades[0];
    const count = Math.floor((scaled?.bladeLengthMm ?? 0) / LABEL_EACH_MM);
    const distances = Array.from({ length: count }, (_, k) => (k + 1) * LABEL_EACH_MM);
    return html`<div class="labels" aria-hidden="true" ${ref(this.labels)}>
      ${this.blades.map(
        ({ blade }) =>
          html`<span class="name" part="words" hidden data-blade=${blade} data-from-tip=${shownFromMm}
            >${blade}</span
          >`,
      )}
      ${distances
        .filter((mm) => mm > shownFromMm)
        .map(
          (mm) =>
            html`<span part="words" hidden data-blade=${scaled!.blade} data-from-tip=${mm}>${mm}</span>`,
        )}
      ${this.levels
        .filter(({ fromTipMm }) => fromTipMm > shownFromMm)
        .map(
          ({ blade, levelMm, fromTipMm }) =>
            html`<span class="level" part="words" hidden data-blade=${blade} data-from-tip=${fromTipMm}
              >${readingText(levelMm, this)}</span
            >`,
        )}
    </div>`;
  }

  private renderControls() {
    const turn = (key: string) => () => this.stage.is === 'shown' && this.stage.scene.move(...KEYS[key]!);
    return html`<details>
      <summary>Turn it</summary>
      <div class="controls">
        ${VIEWS.map((view) => html`<button @click=${() => this.look(view)}>${VIEW_WORDS[view]}</button>`)}
        <button aria-label="turn left" @click=${turn('ArrowLeft')}>↺</button>
        <button aria-label="turn right" @click=${turn('ArrowRight')}>↻</button>
        <button aria-label="come nearer" @click=${turn('+')}>+</button>
        <button aria-label="go back" @click=${turn('-')}>−</button>
      </div>
    </details>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-relief': Relief;
  }
  interface HTMLElementEventMap {
    'bench-relief-unavailable': ReliefUnavailableEvent;
  }
}
