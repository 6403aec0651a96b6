import { html, nothing, type PropertyValues } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { createRef, ref } from 'lit/directives/ref.js';
import type { Place } from '../../shared/blade.ts';
import type { ThicknessUnit } from '../../shared/units.ts';
import type { NamedSolid } from '../../src/exchange/surfaces/glb.ts';
import type { NumberFormat } from '../../src/words/format.ts';
import { MapProbeEvent, MapStationOpenEvent } from '../map/map-events.ts';
import { placeOf } from '../map/map-data.ts';
import { nearestMark, REACH } from '../map/stations.ts';
import type { OnCanvas } from '../scene/eye.ts';
import type { ReliefScene } from '../scene/relief-scene.ts';
import type { Angles } from '../scene/stance.ts';
import { bandOf, ramp } from '../theme/ramp.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { labelsOf, placeLabels, type ReliefLabel } from './relief-labels.ts';
import { styles } from './relief.styles.ts';
import type { Print } from '../map/prints.ts';
import {
  ENLARGED,
  FIRST_LIGHT,
  type ReliefBlade,
  type ReliefSettings,
  type ReliefView,
} from './relief-data.ts';

/** The browser cannot draw in three dimensions; the flat map has to do. */
export class ReliefUnavailableEvent extends Event {
  constructor() {
    super('bench-relief-unavailable');
  }
}

/** The picture is seen from somewhere else now. */
export class ReliefTurnEvent extends Event {
  readonly angles: Angles;
  constructor(angles: Angles) {
    super('bench-relief-turn');
    this.angles = angles;
  }
}

const TURN = Math.PI / 12;
const NEARER = 0.85;
/** So many times finer than on the screen is a picture in a file. */
const IN_A_FILE = 2;
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

type Stage =
  | { readonly is: 'waiting' }
  | { readonly is: 'missing' }
  | { readonly is: 'shown'; scene: ReliefScene };

/**
 * The reed as a body that is turned in the hand: both blades opened, on the staple, or flattened, in the colours of the
 * flat map, with what the question prints on them. Turned by pointer, touch and arrow keys; the drawing code is fetched
 * when the picture first comes into sight, and a frame is drawn only when something has changed.
 *
 * Keys: arrows turn by 15 degrees, `+` and `-` come nearer and go back, `0` is the first view, Shift and arrows move the
 * marked place, Enter opens the reading there. So does a double click on it; beside the reed it goes back to the first view.
 *
 * @event bench-map-probe - The pointer rests on a place of a blade, or has left the blades.
 * @event bench-map-station-open - The reading at a station is asked for.
 * @event bench-relief-unavailable - The browser has no WebGL; the slotted picture is shown.
 * @event bench-relief-turn - A frame was drawn, seen from `angles`.
 * @slot - What is shown where there is no WebGL: the flat map.
 * @csspart canvas - The picture.
 */
@customElement('bench-relief')
export class Relief extends BenchElement {
  static override styles = styles;

  private readonly sight = new IntersectionObserver((entries) => {
    if (entries.some(({ isIntersecting }) => isIntersecting)) void this.begin();
  });
  private readonly labelled = createRef<HTMLElement>();
  /** Made anew for each time on the page: a canvas that was given up cannot be taken up again. */
  private canvas: HTMLCanvasElement | undefined;
  private labels: readonly ReliefLabel[] = [];

  @state() private stage: Stage = { is: 'waiting' };
  @state() private isFromTip = false;

  @property({ attribute: false }) blades: readonly ReliefBlade[] = [];
  @property() stance: Print = 'opened';
  @property() unit: ThicknessUnit = 'hundredths';
  /** The maker's decimal sign. */
  @property() decimal: NumberFormat['decimal'] = 'point';
  /** Thickness is drawn this many times larger than width and length. */
  @property({ type: Number }) factor: number = ENLARGED.thickness;
  /** Differences are drawn this many times larger. */
  @property({ type: Number, attribute: 'difference-factor' }) differenceFactor: number = ENLARGED.difference;
  /** Cuts the blades across here and takes the tip's side away, mm from the tip. */
  @property({ type: Number, attribute: 'cut-at-mm' }) cutAtMm: number | undefined;
  /** How much a clip would take off the tip, mm. */
  @property({ type: Number, attribute: 'clip-mm' }) clipMm: number | undefined;
  /** How far what was taken off stands off: 1 in full, 0 on the place that it left. */
  @property({ type: Number }) lift = 1;
  /** Writes readings at their stations. */
  @property({ type: Boolean }) readings = false;
  /** An even light, under which every place has its legend's colour. */
  @property({ type: Boolean, attribute: 'even-light' }) evenLight = false;
  /** Where the raking light comes from, rad: 0 from the right, counter-clockwise. */
  @property({ type: Number, attribute: 'light-angle' }) lightAngle = FIRST_LIGHT;
  @property({ attribute: false }) probe: Place | undefined;
  /** What the picture shows, in a sentence or two, for those who cannot see it. */
  @property() label = 'The reed as a body';

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
    const isOther = (['blades', 'unit', 'decimal', 'readings', 'cutAtMm', 'stance'] as const).some((name) =>
      changed.has(name),
    );
    if (!isOther) return;
    this.labels = this.blades
      .flatMap((blade) => labelsOf(blade, this.cutAtMm ?? 0, this.stance === 'staple', this))
      .filter(({ kind }) => this.readings || kind !== 'reading');
  }

  override updated(changed: PropertyValues<this>) {
    if (this.stage.is !== 'shown' || this.blades.length === 0) return;
    const { scene } = this.stage;
    const onlyProbe = changed.size === 1 && changed.has('probe');
    if (onlyProbe) scene.showProbe(this.probe);
    else scene.show(this.settings, this.theme.name);
  }

  /** Looks from one of the standard views. */
  look(view: ReliefView): void {
    if (this.stage.is === 'shown') this.stage.scene.look(view);
  }

  /** Looks at once from where another picture is seen. */
  turnTo(angles: Angles): void {
    if (this.stage.is === 'shown') this.stage.scene.turnTo(angles);
  }

  /** Where a place of a blade stands on the picture, CSS pixels from its left and top; undefined where nothing was read. */
  where(place: Place): OnCanvas | undefined {
    return this.stage.is === 'shown' ? this.stage.scene.onCanvas(place) : undefined;
  }

  /**
   * The picture as it stands, for a file or for print; undefined while there is none.
   *
   * @param scale How much finer than on the screen it is drawn.
   */
  snapshot(scale = 1): HTMLCanvasElement | undefined {
    return this.stage.is === 'shown' ? this.stage.scene.snapshot(scale) : undefined;
  }

  /** What is seen as bodies in their colours, for a file. */
  solids(): NamedSolid[] {
    return this.stage.is === 'shown' ? this.stage.scene.solids() : [];
  }

  /** Frames drawn so far and draw calls of the last one. */
  get cost(): { readonly frames: number; readonly drawCalls: number } {
    if (this.stage.is !== 'shown') return { frames: 0, drawCalls: 0 };
    const { frames, drawCalls } = this.stage.scene;
    return { frames, drawCalls };
  }

  private get settings(): ReliefSettings {
    const { blades, stance, factor, differenceFactor, unit, lift, cutAtMm, clipMm, probe } = this;
    return {
      blades,
      stance,
      factor,
      differenceFactor,
      unit,
      lift,
      light: { isEven: this.evenLight, angle: this.lightAngle },
      ...(cutAtMm !== undefined && { cutAtMm }),
      ...(clipMm !== undefined && { clipMm }),
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
      const scene = new Scene(canvas, () => this.handleFrame());
      scene.isStill = matchMedia('(prefers-reduced-motion: reduce)').matches;
      this.stage = { is: 'shown', scene };
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
    canvas.addEventListener('bench-picture-take', () => this.drawFiner());
    // A finger has no other way to rest on a place.
    canvas.addEventListener('click', (event) => this.handlePointer(event));
    canvas.addEventListener('dblclick', (event) => this.handleDoubleClick(event));
    canvas.addEventListener('wheel', (event) => this.allowWheel(event.ctrlKey || this.fillsScreen), {
      capture: true,
    });
    return canvas;
  }

  /** Twice as fine for a file, until the next frame. */
  private drawFiner() {
    this.snapshot(IN_A_FILE);
    requestAnimationFrame(() => this.snapshot());
  }

  /** Whether the picture, or the plate that it stands on, fills the screen. */
  private get fillsScreen(): boolean {
    return this.ownerDocument.fullscreenElement !== null;
  }

  private allowWheel(allowed: boolean) {
    if (this.stage.is === 'shown') this.stage.scene.zoomByWheel = allowed;
  }

  private handleKey(event: KeyboardEvent) {
    if (this.stage.is !== 'shown' || event.ctrlKey || event.altKey || event.metaKey) return;
    const { scene } = this.stage;
    const step = event.shiftKey ? PROBE_STEP[event.key] : undefined;
    const move = KEYS[event.key];
    if (step) this.moveProbe(...step);
    else if (event.key === '0') scene.look('cork');
    else if (event.key === 'Enter') this.openAt(this.probe);
    else if (move) scene.move(...move);
    else return;
    event.preventDefault();
  }

  private handleDoubleClick({ offsetX, offsetY }: MouseEvent) {
    if (this.stage.is !== 'shown') return;
    const place = this.stage.scene.placeUnder(offsetX, offsetY);
    if (place) this.openAt(place);
    else this.look('cork');
  }

  /** Asks for the reading at the station that a place lies at. */
  private openAt(place: Place | undefined) {
    const marks = this.blades.find(({ blade }) => blade === place?.blade)?.marks ?? [];
    if (!place || marks.length === 0) return;
    const station = placeOf(place.blade, marks[nearestMark(marks, place.fromTipMm, place.across)]!);
    const [here, there] = [this.where(place), this.where(station)];
    if (here && there && Math.hypot(here.left - there.left, here.top - there.top) <= REACH)
      this.dispatchEvent(new MapStationOpenEvent(station));
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

  private handlePointer({ offsetX, offsetY, buttons }: MouseEvent) {
    if (this.stage.is !== 'shown' || buttons !== 0) return;
    this.dispatchEvent(new MapProbeEvent(this.stage.scene.placeUnder(offsetX, offsetY)));
  }

  private handleFrame() {
    if (this.stage.is !== 'shown' || !this.labelled.value) return;
    const { scene } = this.stage;
    placeLabels(this.labels, this.labelled.value.children as HTMLCollectionOf<HTMLElement>, scene);
    this.isFromTip = scene.isFromTip;
    this.dispatchEvent(new ReliefTurnEvent(scene.angles));
  }

  override render() {
    if (this.stage.is === 'missing') {
      return html`<p>This device cannot draw the relief. The flat map shows the same figures.</p>
        <slot></slot>`;
    }
    this.canvas?.setAttribute(
      'aria-label',
      `${this.label}. Thickness drawn ${this.factor} times. Arrow keys turn it, plus and minus come nearer and go back, 0 is the first view, Shift and arrows move the marked place.`,
    );
    return html`<div class="frame">
      ${this.stage.is === 'shown' ? this.canvas : nothing}
      <div class="labels" aria-hidden="true" ${ref(this.labelled)}>
        ${this.labels.map((label) => this.renderLabel(label))}
      </div>
      ${
        this.isFromTip
          ? html`<p class="turned" part="words" role="status">
              Seen from the tip: left and right have changed places. The dot is side 1.
            </p>`
          : nothing
      }
    </div>`;
  }

  /** Labels wait out of sight until the first frame has put them in their places. */
  private renderLabel({ kind, text, mark }: ReliefLabel) {
    const scale = ramp('thickness', this.theme.name);
    const band = mark ? scale.bands[bandOf(scale, mark.valueMm)] : undefined;
    return html`<span
      class=${kind === 'difference' && mark!.valueMm < 0 ? 'difference less' : kind}
      hidden
      ${ref((element) => {
        if (!(element instanceof HTMLElement) || !band) return;
        element.style.setProperty('--wood', band.colour);
        element.style.setProperty('--on-wood', band.ink);
      })}
      ><i part="words">${text}</i></span
    >`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-relief': Relief;
  }
  interface HTMLElementEventMap {
    'bench-relief-unavailable': ReliefUnavailableEvent;
    'bench-relief-turn': ReliefTurnEvent;
  }
}
