import { html, nothing, svg, type PropertyValues, type SVGTemplateResult } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import { guard } from 'lit/directives/guard.js';
import { facing, type Place } from '../../shared/blade.ts';
import type { ThicknessUnit } from '../../shared/units.ts';
import type { NumberFormat } from '../../src/words/format.ts';
import type { Quantity } from '../theme/ramp.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { bladeDrawing, outlinePath, side1Of, WIDTH_FACTOR, type BladeDrawing } from './blade-drawing.ts';
import * as layers from './blade-layers.ts';
import { styles, textures } from './blade-map.styles.ts';
import { bandsLayer, contoursLayer, markedPath, measurablePath, signLayer } from './colour-layer.ts';
import { contoursOf, type Contour } from './level-lines.ts';
import { LineHandle } from './line-handle.ts';
import {
  placeOf,
  type BladeMapData,
  type MapRoute,
  type OutlinePoint,
  type ProfileLine,
} from './map-data.ts';
import { MapFacingEvent, MapProbeEvent, MapStationOpenEvent } from './map-events.ts';
import { smallPrint } from './small-print.ts';
import { stationLayer } from './station-layer.ts';
import { nearestMark, REACH, step } from './stations.ts';

/** Size of numbers on the wood, drawing units, and the least that they are ever shown at, CSS pixels. */
const FONT_SIZE = 13.5;
const LEAST_FONT_PX = 11.2;
/** Values of contour lines, in sizes of the numbers on the wood; and the least they are ever shown at, CSS pixels. */
const LEVEL_SIZE = 0.74;
const LEAST_LEVEL_PX = 9.5;
/** A fine contour line is left out where its neighbours are nearer, drawing units: 3 CSS pixels where maps are smallest. */
const LEAST_CONTOUR_GAP = 4;

/** What is drawn on the wood and changes only with the data. */
interface Wood {
  readonly bands: readonly SVGTemplateResult[];
  readonly contours: readonly Contour[];
  readonly contourLines: readonly SVGTemplateResult[];
  readonly signs: SVGTemplateResult | typeof nothing;
  readonly measurable: string;
  readonly variety: string;
  readonly between: string;
  readonly beyond: SVGTemplateResult | typeof nothing;
  readonly outline: string;
}

/**
 * Map of one blade, bark side, tip up: numbers at their stations, bands of colour and contour lines under them. Shows what
 * it is given and works out no figure.
 *
 * One tab stop. Arrows walk the stations, Home and End the row, Page up and Page down the column; Enter opens the
 * reading, `x` asks for the facing place. The numbers are a grid to a screen reader, a row for each distance.
 *
 * @event bench-map-probe - Pointer or keys rest on a place, or have left the blade.
 * @event bench-map-station-open - A station was clicked, touched a second time, or Enter pressed on it.
 * @event bench-map-facing - `x` was pressed: the facing place on the other blade is wanted.
 * @event bench-map-line-move - The profile line was dragged or stepped.
 * @csspart picture - The drawing.
 */
@customElement('bench-blade-map')
export class BladeMap extends BenchElement {
  static override styles = [textures, styles];

  private readonly handle = new LineHandle(this);
  private readonly size = new ResizeObserver(([entry]) => this.measure(entry!.contentRect.width));
  private drawing: BladeDrawing | undefined;
  private wood: Wood | undefined;

  @query('svg') private readonly picture!: SVGSVGElement | null;
  @state() private current = 0;
  @state() private pxPerUnit = 1;

  /** The blade; without it nothing is drawn. */
  @property({ attribute: false }) data: BladeMapData | undefined;
  /** What the colours stand for. */
  @property({ reflect: true }) quantity: Quantity = 'thickness';
  @property() unit: ThicknessUnit = 'hundredths';
  /** The maker's decimal sign. */
  @property() decimal: NumberFormat['decimal'] = 'point';
  /** What the picture shows, in a sentence, for those who cannot see it. */
  @property() label = '';
  /** Stands above the tip in place of the blade's letter, where it is not one blade that is shown. */
  @property() name: string | undefined;
  /** Length that the picture gives room for, mm; give both blades the same. */
  @property({ type: Number, attribute: 'length-mm' }) lengthMm: number | undefined;
  /** Readings and contours without fill. */
  @property({ type: Boolean, reflect: true, attribute: 'numbers-only' }) numbersOnly = false;
  /** The small picture of a reed: colours, outline, thread and staple; no numbers, no scale, no keys. */
  @property({ type: Boolean, reflect: true }) plain = false;
  /** A blank: dashed, not scraped yet. */
  @property({ type: Boolean }) blank = false;
  /** A place to mark on this blade. */
  @property({ attribute: false }) probe: OutlinePoint | undefined;
  @property({ attribute: false }) route: MapRoute | undefined;
  /** A line to draw, with a grip to move it by. */
  @property({ attribute: false }) line: ProfileLine | undefined;

  override createRenderRoot() {
    const root = super.createRenderRoot();
    // On the root: a browser makes a part of a drawing that listens for focus a tab stop of its own.
    root.addEventListener('focusin', () => this.handleFocus());
    root.addEventListener('focusout', () => this.handleLeave());
    return root;
  }

  override connectedCallback() {
    super.connectedCallback();
    this.size.observe(this);
  }

  override disconnectedCallback() {
    super.disconnectedCallback();
    this.size.disconnect();
  }

  override willUpdate(changed: PropertyValues<this>) {
    const { data } = this;
    if (!data) return;
    if (changed.has('data') || changed.has('lengthMm')) {
      this.drawing = bladeDrawing(data, this.lengthMm ?? data.bladeLengthMm, side1Of(data.blade));
      this.current = Math.min(this.current, Math.max(data.marks.length - 1, 0));
    }
    const onTheWood = ['data', 'lengthMm', 'quantity', 'unit', 'plain'] as const;
    if (onTheWood.some((name) => changed.has(name))) this.wood = this.drawWood(data, this.drawing!);
  }

  /** Puts the keyboard on the station nearest to a place. */
  async focusPlace({ fromTipMm, across }: OutlinePoint): Promise<void> {
    await this.updateComplete;
    if (this.data && this.data.marks.length > 0) {
      await this.focusMark(nearestMark(this.data.marks, fromTipMm, across));
    }
  }

  private measure(widthPx: number) {
    if (this.drawing && widthPx > 0) this.pxPerUnit = widthPx / this.drawing.width;
  }

  private drawWood(data: BladeMapData, drawing: BladeDrawing): Wood {
    const { quantity, unit } = this;
    const signed = quantity === 'difference';
    const leastGapMm = LEAST_CONTOUR_GAP / drawing.unitsPerMm;
    const contours = this.plain
      ? []
      : contoursOf(data, { quantity, unit, widthFactor: WIDTH_FACTOR, leastGapMm });
    return {
      bands: bandsLayer(drawing, data, quantity),
      contours,
      contourLines: contoursLayer(drawing, data, quantity, contours),
      signs: signed ? signLayer(drawing, data) : nothing,
      measurable: measurablePath(drawing, data),
      variety: markedPath(drawing, data, data.ownVariety),
      between: markedPath(drawing, data, data.between),
      beyond: layers.beyondLayer(drawing, data),
      outline: outlinePath(drawing, data, data.bladeLengthMm),
    };
  }

  private async focusMark(index: number) {
    this.current = index;
    await this.updateComplete;
    this.renderRoot.querySelector<SVGGElement>(`#station-${index}`)?.focus();
  }

  private handleKey(event: KeyboardEvent) {
    const { data } = this;
    const mark = data?.marks[this.current];
    if (!data || !mark || event.ctrlKey || event.altKey || event.metaKey) return;
    const place = placeOf(data.blade, mark);
    const target = step(data.marks, this.current, event.key);
    if (target !== undefined) void this.focusMark(target);
    else if (event.key === 'Enter') this.dispatchEvent(new MapStationOpenEvent(place));
    else if (event.key === 'x') this.dispatchEvent(new MapFacingEvent(facing(place)));
    else if (!event.key.startsWith('Arrow')) return;
    event.preventDefault();
  }

  private handleFocus() {
    const mark = this.data?.marks[this.current];
    const onStation = this.shadowRoot?.activeElement?.id === `station-${this.current}`;
    if (this.data && mark && onStation) this.dispatchEvent(new MapProbeEvent(placeOf(this.data.blade, mark)));
  }

  private handleLeave() {
    this.dispatchEvent(new MapProbeEvent(undefined));
  }

  private handlePointer(event: PointerEvent) {
    const place = this.placeUnder(event);
    if (place) this.dispatchEvent(new MapProbeEvent(place));
    else this.handleLeave();
  }

  private handleClick(event: MouseEvent) {
    const { data, drawing } = this;
    const place = this.placeUnder(event);
    if (!data || !drawing || !place || data.marks.length === 0) return;
    const index = nearestMark(data.marks, place.fromTipMm, place.across);
    const mark = data.marks[index]!;
    const dx = drawing.x(mark.fromTipMm, mark.across) - drawing.x(place.fromTipMm, place.across);
    if (Math.hypot(dx, drawing.y(mark.fromTipMm) - drawing.y(place.fromTipMm)) > REACH) return;
    // A finger that looks at a place has no other way to point at it: it opens what it has chosen before.
    const isFinger = event instanceof PointerEvent && event.pointerType === 'touch';
    const isChosen = this.shadowRoot?.activeElement?.id === `station-${index}`;
    void this.focusMark(index);
    if (!isFinger || isChosen) this.dispatchEvent(new MapStationOpenEvent(placeOf(data.blade, mark)));
  }

  /** The place on the wood under the pointer. */
  private placeUnder(event: MouseEvent): Place | undefined {
    const { data, drawing, picture } = this;
    if (!data || !drawing || !picture) return undefined;
    const box = picture.getBoundingClientRect();
    const scale = drawing.width / box.width;
    const place = drawing.placeAt((event.clientX - box.left) * scale, (event.clientY - box.top) * scale);
    const onTheWood =
      Math.abs(place.across) <= 1 && place.fromTipMm >= 0 && place.fromTipMm <= data.bladeLengthMm;
    return onTheWood ? placeOf(data.blade, place) : undefined;
  }

  override render() {
    const { data, drawing, wood } = this;
    if (!data || !drawing || !wood) return nothing;
    return html`<svg
      part="picture"
      viewBox="0 0 ${drawing.width} ${drawing.height + (this.plain ? 48 : 0)}"
      role=${this.plain ? 'img' : 'group'}
      aria-label=${this.label || `Blade ${data.blade}`}
      @pointermove=${this.plain ? nothing : this.handlePointer}
      @pointerleave=${this.plain ? nothing : this.handleLeave}
      @click=${this.plain ? nothing : this.handleClick}
    >
      <defs>
        ${layers.PATTERNS}
        <clipPath id="measurable"><path clip-rule="evenodd" d=${wood.measurable}></path></clipPath>
        <clipPath id="board"><path d=${wood.outline}></path></clipPath>
      </defs>
      ${this.plain ? nothing : this.renderSurroundings(data, drawing)} ${this.renderWood(data, drawing, wood)}
      ${layers.threadLayer(drawing, data.blade, data.bladeLengthMm, this.plain)}
      ${this.plain ? layers.stapleLayer(drawing, data.bladeLengthMm) : this.renderMarks(data, drawing, wood)}
    </svg>`;
  }

  private renderSurroundings(data: BladeMapData, drawing: BladeDrawing) {
    return svg`<text class="name" aria-hidden="true" x=${drawing.centre} y="12">${this.name ?? data.blade}</text>
      ${layers.scaleLayer(drawing)}
      ${data.clippedMm ? layers.rimLayer(drawing, data.clippedMm) : nothing}`;
  }

  private renderWood(
    data: BladeMapData,
    drawing: BladeDrawing,
    { bands, contourLines, signs, variety, between, beyond, outline }: Wood,
  ) {
    const bare = svg`<path class="board" d=${outline}></path>`;
    const textured = !this.blank && !(this.plain && bands.length === 0);
    return svg`<g class="wood" aria-hidden="true">
      <path class="board" d=${outline}></path>
      ${textured ? svg`<path fill="url(#dots)" d=${outline}></path>` : nothing}
      <g clip-path="url(#board)">
        ${layers.lostZonesLayer(drawing, data.zones)}
        ${between ? svg`<path fill="url(#between)" fill-rule="evenodd" d=${between}></path>` : nothing}
        ${variety ? svg`<path fill="url(#variety)" fill-rule="evenodd" d=${variety}></path>` : nothing}
        <g class="bands" clip-path="url(#measurable)">${this.numbersOnly ? bare : bands}${signs}${contourLines}</g>
        ${this.plain ? nothing : beyond} ${this.plain ? nothing : layers.zonesLayer(drawing, data.zones)}
        ${layers.strokesLayer(drawing, data.nextStrokes ?? [])}
      </g>
      <path class=${this.blank ? 'outline blank' : 'outline'} d=${outline}></path></g>`;
  }

  private renderMarks(data: BladeMapData, drawing: BladeDrawing, { contours }: Wood) {
    const fontSize = Math.max(FONT_SIZE, LEAST_FONT_PX / this.pxPerUnit) * this.theme.textScale;
    const { quantity, unit, decimal, numbersOnly, current } = this;
    const look = { drawing, data, quantity, unit, decimal, numbersOnly };
    const print = () =>
      smallPrint(
        { ...look, fontSize },
        contours,
        Math.max(LEVEL_SIZE * FONT_SIZE, LEAST_LEVEL_PX / this.pxPerUnit) * this.theme.textScale,
      );
    return svg`${guard([contours, fontSize, decimal, numbersOnly], print)}
      ${this.line ? this.handle.render(drawing, data, this.line) : nothing}
      ${this.route ? layers.routeLayer(drawing, this.route) : nothing}
      ${
        data.marks.length === 0
          ? nothing
          : svg`<g class="stations" role="grid" aria-label=${`Readings of blade ${data.blade}, from the tip`}
              @keydown=${this.handleKey}
              >${stationLayer({ ...look, fontSize, current })}</g>`
      }
      ${this.probe ? layers.probeLayer(drawing, this.probe) : nothing}`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-blade-map': BladeMap;
  }
}
