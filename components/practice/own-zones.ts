import { html, nothing } from 'lit';
import { customElement, query, state } from 'lit/decorators.js';
import { live } from 'lit/directives/live.js';
import { hangsFromSchema, type OutlinePoint, type Zone } from '../../shared/style.ts';
import { labelSchema } from '../../shared/fields.ts';
import {
  drawnZone,
  withCorner,
  withCornerAfter,
  withoutCorner,
  zoneProblem,
  type CornerAt,
  type Drawn,
} from '../../src/blade/edit-zone.ts';
import { assumedPlanform, halfWidthAt } from '../../src/blade/planform.ts';
import { STARTING_STYLES, startingStyle } from '../../src/blade/starting-styles.ts';
import { USUAL_OVERALL_MM } from '../../src/reed/overall-lengths.ts';
import { USUAL_BLADE_MM } from '../../src/round/round-plans.ts';
import { FINE_STEP, snapPlace, STEP } from '../../src/round/snap-place.ts';
import { LibraryController } from '../store/library-controller.ts';
import { controls } from '../theme/base.styles.ts';
import { forms } from '../theme/forms.styles.ts';
import { BenchElement } from '../theme/bench-element.ts';
import { zonesStyles } from './own-zones.styles.ts';
import { ZoneHand } from './zone-hand.ts';
import { cornerWords, zonePicture, zonePictureStyles } from './zone-picture.ts';

const ARROWS: Readonly<Record<string, readonly [down: number, right: number]>> = {
  ArrowUp: [-1, 0],
  ArrowDown: [1, 0],
  ArrowLeft: [0, -1],
  ArrowRight: [0, 1],
};
/** Where a zone is put that is not drawn by a pointer. */
const PUT: Drawn = { from: { fromTipMm: 10, across: -0.3 }, to: { fromTipMm: 12, across: 0.3 } };
const NEW_TITLE = 'New zone';
const HANGS_WORDS = { tip: 'moves with the tip', cane: 'stays with the cane' } as const;
const HOW =
  'Choose a zone. Its corners are dragged, or walked with the arrows, finer with Shift; Enter adds one, Delete takes it away.';

/** The zones of a style, drawn on a blade: corners can be moved, added and taken away, zones drawn, named and thrown away. */
@customElement('bench-own-zones')
export class OwnZones extends BenchElement {
  static override styles = [controls, forms, zonePictureStyles, zonesStyles];

  private readonly library = new LibraryController(this);
  @query('.sides svg') private readonly drawing!: SVGSVGElement;
  @state() private styleKey = STARTING_STYLES[0]!.key;
  @state() private chosenName: string | undefined;
  @state() private problem = '';
  private readonly hand = new ZoneHand(this, {
    drawing: () => this.drawing,
    blade: () => this.blade,
    chosen: () => this.zones.find(({ name }) => name === this.chosenName),
    draw: (drawn) => this.add(drawn),
    drag: (zone) => this.keepZone(zone),
  });

  private get own() {
    return this.library.store?.snapshot.live.zones.find(({ styleId }) => styleId === this.styleKey);
  }

  private get zones(): readonly Zone[] {
    return this.own?.zones ?? startingStyle(this.styleKey).zones;
  }

  private get chosen(): Zone | undefined {
    return this.hand.dragged ?? this.zones.find(({ name }) => name === this.chosenName);
  }

  private get blade() {
    const bladeLengthMm = USUAL_BLADE_MM[this.styleKey === 'short-scrape' ? 'short' : 'long'];
    const planform = assumedPlanform(USUAL_OVERALL_MM, startingStyle(this.styleKey).tipWidthMm);
    const halfWidthMm = (fromTipMm: number) => halfWidthAt(planform, USUAL_OVERALL_MM - fromTipMm);
    return { bladeLengthMm, halfWidthMm };
  }

  /** Keeps the zones as they are made from those that stand when their turn comes. */
  private keep(change: (zones: readonly Zone[]) => readonly Zone[], label: string) {
    const { styleKey } = this;
    void this.library.store?.keepLatest(() => {
      const zones = [...change(this.zones)];
      const now = this.own;
      return [now ? { ...now, zones } : { kind: 'zones', styleId: styleKey, zones }];
    }, label);
  }

  /** The chosen zone as it is to be, unless that cannot be. */
  private keepZone(zone: Zone) {
    this.problem = zoneProblem(zone) ?? '';
    if (this.problem) return;
    this.keep((zones) => zones.map((one) => (one.name === zone.name ? zone : one)), `zone ${zone.title}`);
  }

  private change(change: (zone: Zone) => Zone) {
    const zone = this.zones.find(({ name }) => name === this.chosenName);
    if (zone) this.keepZone(change(zone));
  }

  private add(drawn: Drawn) {
    const zone = drawnZone(
      NEW_TITLE,
      this.zones.map(({ name }) => name),
      drawn,
    );
    this.hand.isDrawing = false;
    this.problem = zoneProblem(zone) ?? '';
    if (this.problem) return;
    this.choose(zone.name);
    this.keep((zones) => [...zones, zone], `a zone of one’s own`);
  }

  private choose(name: string | undefined) {
    this.chosenName = name;
    this.hand.take(undefined);
    this.problem = '';
  }

  private handleKey(event: KeyboardEvent) {
    const { chosen } = this;
    const at = (event.target as Element)
      .closest('[data-corner]')
      ?.getAttribute('data-corner')
      ?.split(' ')
      .map(Number);
    if (!chosen || !at) return;
    const corner = { outline: at[0]!, corner: at[1]! };
    const step = ARROWS[event.key];
    this.hand.take(corner);
    if (step) {
      const size = event.shiftKey ? FINE_STEP : STEP;
      const { fromTipMm, across } = chosen.outlines[corner.outline]![corner.corner]!;
      const to = { fromTipMm: fromTipMm + step[0] * size.fromTipMm, across: across + step[1] * size.across };
      this.change((zone) => withCorner(zone, corner, snapPlace(to, this.blade.bladeLengthMm, FINE_STEP)));
    } else if (event.key === 'Enter') this.change((zone) => withCornerAfter(zone, corner));
    else if (event.key === 'Delete' || event.key === 'Backspace') this.takeAway(corner);
    else return;
    event.preventDefault();
  }

  private takeAway(corner: CornerAt) {
    this.hand.take({ ...corner, corner: Math.max(0, corner.corner - 1) });
    this.change((zone) => withoutCorner(zone, corner));
  }

  private handleFocus(event: FocusEvent) {
    const at = (event.target as Element).getAttribute('data-corner')?.split(' ').map(Number);
    if (at) this.hand.take({ outline: at[0]!, corner: at[1]! });
  }

  /** By keys a zone is put on the blade at once: its corners are walked then. */
  private handleDraw(event: MouseEvent) {
    if (event.detail === 0) this.add(PUT);
    else this.hand.begin();
  }

  private handleTitle(event: Event) {
    const input = event.target as HTMLInputElement;
    const title = labelSchema.safeParse(input.value.trim());
    const isTaken = this.zones.some(
      (one) => one.name !== this.chosenName && one.title === input.value.trim(),
    );
    this.problem = isTaken
      ? 'Another zone is called that.'
      : title.success
        ? ''
        : 'A zone has a name of 1 to 80 letters.';
    if (!title.success || isTaken) input.value = this.chosen?.title ?? '';
    else this.change((zone) => ({ ...zone, title: title.data }));
  }

  private handleAway() {
    const { chosen } = this;
    const { store } = this.library;
    if (!chosen || !store) return;
    const used = store.snapshot.live.target.find((target) =>
      JSON.stringify(target).includes(`"${chosen.name}"`),
    );
    if (used) {
      this.problem = `The target ${used.name} names ${chosen.title}. Take it out there first.`;
      return;
    }
    this.choose(undefined);
    this.keep(
      (zones) => zones.filter(({ name }) => name !== chosen.name),
      `zone ${chosen.title} thrown away`,
    );
  }

  private handleBack(zone: Zone) {
    const start = startingStyle(this.styleKey).zones.find(({ name }) => name === zone.name);
    if (start) this.keepZone(start);
  }

  override render() {
    const { zones, chosen } = this;
    const { corner, drawn, isDrawing } = this.hand;
    const { writing } = this.library;
    return html`<div class="choice" role="group" aria-label="Style">
        ${STARTING_STYLES.map(
          ({ key, name }) =>
            html`<button
              aria-pressed=${key === this.styleKey ? 'true' : 'false'}
              @click=${() => {
                this.styleKey = key;
                this.choose(undefined);
              }}
            >
              ${name}
            </button>`,
        )}
      </div>
      ${this.renderChoice()}
      <p role="status">
        ${this.problem || (isDrawing ? 'Drag over the blade from one corner to the other.' : HOW)}
      </p>
      <div class=${isDrawing ? 'sides drawing' : 'sides'}>
        <div
          @pointerdown=${this.hand.down}
          @pointermove=${this.hand.move}
          @pointerup=${this.hand.up}
          @keydown=${this.handleKey}
          @focusin=${this.handleFocus}
        >
          ${zonePicture({ zones, chosen, corner, drawn, ...this.blade, writing })}
        </div>
        ${chosen ? this.renderZone(chosen) : nothing}
      </div>`;
  }

  private renderChoice() {
    const { zones, chosenName } = this;
    return html`<div class="line" role="group" aria-label="Zone">
      ${zones.map(
        ({ name, title }) =>
          html`<button
            aria-pressed=${name === chosenName ? 'true' : 'false'}
            @click=${() => this.choose(name === chosenName ? undefined : name)}
          >
            ${title}
          </button>`,
      )}
      <button aria-pressed=${this.hand.isDrawing ? 'true' : 'false'} @click=${this.handleDraw}>
        Draw a zone
      </button>
    </div>`;
  }

  private renderZone(zone: Zone) {
    const { corner } = this.hand;
    const start = startingStyle(this.styleKey).zones.find(({ name }) => name === zone.name);
    const isChanged = start && JSON.stringify(start) !== JSON.stringify(zone);
    const place = corner && zone.outlines[corner.outline]?.[corner.corner];
    return html`<div>
      <label>Name<input maxlength="80" .value=${live(zone.title)} @change=${this.handleTitle} /></label>
      ${corner && place ? this.renderCorner(corner, place) : nothing}
      <div class="line">
        ${isChanged ? html`<button @click=${() => this.handleBack(zone)}>As it was at the start</button>` : nothing}
        ${start ? nothing : html`<button @click=${this.handleAway}>Throw ${zone.title} away</button>`}
      </div>
      <p>
        Tables, maps, plans, pages to print and reports have the zones as they are here, for every reed of
        this style.
      </p>
    </div>`;
  }

  private renderCorner(corner: CornerAt, place: OutlinePoint) {
    const hang = (event: Event) => hangsFromSchema.parse((event.target as HTMLSelectElement).value);
    return html`<p>${cornerWords(place, this.library.writing)}</p>
      <div class="line">
        <label
          >When the tip is clipped, this corner
          <select
            @change=${(event: Event) => {
              const hangsFrom = hang(event);
              this.change((zone) => withCorner(zone, corner, { hangsFrom }));
            }}
          >
            ${hangsFromSchema.options.map(
              (end) =>
                html`<option value=${end} ?selected=${end === place.hangsFrom}>${HANGS_WORDS[end]}</option>`,
            )}
          </select></label
        >
        <button @click=${() => this.change((zone) => withCornerAfter(zone, corner))}>Add a corner</button>
        <button @click=${() => this.takeAway(corner)}>Take this corner away</button>
      </div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-own-zones': OwnZones;
  }
}
