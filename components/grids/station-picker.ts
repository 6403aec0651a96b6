import { css, html } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { BLADES, type Blade, type Place } from '../../shared/blade.ts';
import type { Station } from '../../shared/grid.ts';
import { dotSide, placeKey, placeWords } from '../../src/round/place-words.ts';
import type { NumberFormat } from '../../src/words/format.ts';
import { FINE_STEP, pickedPlace, snapPlace, STEP } from '../../src/round/snap-place.ts';
import { outlineStyles } from '../round/round-outline.styles.ts';
import { placeUnder, roundOutline, type Outline } from '../round/round-outline.ts';
import { BenchElement } from '../theme/bench-element.ts';

/** A station is to be put at a place, or taken away where there is one. */
export class StationToggleEvent extends Event {
  readonly place: Place;

  constructor(place: Place) {
    super('bench-station-toggle');
    this.place = place;
  }
}

const STEPS: Readonly<Record<string, readonly [down: number, right: number]>> = {
  ArrowUp: [-1, 0],
  ArrowDown: [1, 0],
  ArrowLeft: [0, -1],
  ArrowRight: [0, 1],
};

/**
 * Both blades with the stations of a grid on them, to be put and taken away by a click, or by arrows and Enter.
 *
 * @event bench-station-toggle - Carries the place.
 */
@customElement('bench-station-picker')
export class StationPicker extends BenchElement {
  static override styles = [
    outlineStyles,
    css`
      .blades {
        display: grid;
        grid-template-columns: repeat(auto-fit, minmax(min(100%, 200px), 1fr));
        gap: var(--bench-space-4);
      }
      .outline {
        cursor: crosshair;
      }
      p {
        min-height: 1.5em;
        margin: 0 0 var(--bench-space-2);
        color: var(--bench-ink2);
      }
    `,
  ];

  @property({ attribute: false }) stations: readonly Station[] = [];
  /** Thread to tip, mm. */
  @property({ type: Number, attribute: 'blade-length-mm' }) bladeLengthMm = 23.5;
  /** Half the blade's width at a distance from the tip, mm. */
  @property({ attribute: false }) halfWidthMm: (fromTipMm: number) => number = () => 3.4;
  @property() decimal: NumberFormat['decimal'] = 'point';
  @state() private cursor: Place | undefined;

  private outline(blade: Blade): Outline {
    const { cursor, bladeLengthMm, halfWidthMm } = this;
    const onBlade = this.stations.filter((station) => station.blade === blade);
    return {
      blade,
      stations: onBlade.map((station) => ({
        ...station,
        key: placeKey(station),
        is: 'to-come',
        isOdd: false,
        isUnsure: false,
      })),
      ...(cursor?.blade === blade && { cursor }),
      bladeLengthMm,
      halfWidthMm,
      label: `Blade ${blade}, bark side, tip up, side 1 on the ${dotSide(blade)}, ${onBlade.length} stations`,
    };
  }

  private handleClick(blade: Blade, event: MouseEvent) {
    const pointed = placeUnder(
      (event.currentTarget as Element).querySelector('svg')!,
      this.outline(blade),
      event,
    );
    const onBlade = this.stations.filter((station) => station.blade === blade);
    const place = pickedPlace(onBlade, pointed, this.bladeLengthMm);
    if (place) this.toggle({ blade, ...place });
  }

  private toggle(place: Place) {
    this.cursor = place;
    this.dispatchEvent(new StationToggleEvent(place));
  }

  private handleKey(blade: Blade, event: KeyboardEvent) {
    const at = this.cursor?.blade === blade ? this.cursor : { blade, fromTipMm: 1, across: 0 };
    const step = STEPS[event.key];
    if (step) {
      const size = event.shiftKey ? FINE_STEP : STEP;
      const to = {
        fromTipMm: at.fromTipMm + step[0] * size.fromTipMm,
        across: at.across + step[1] * size.across,
      };
      this.cursor = { blade, ...snapPlace(to, this.bladeLengthMm, FINE_STEP) };
    } else if (event.key === 'Enter' || event.key === ' ') this.toggle(at);
    else return;
    event.preventDefault();
  }

  private handleFocus(blade: Blade) {
    if (this.cursor?.blade !== blade) this.cursor = { blade, fromTipMm: 1, across: 0 };
  }

  private get said(): string {
    const { cursor } = this;
    if (!cursor)
      return 'Click a place, or walk with the arrows, finer with Shift; Enter puts a station or takes it away.';
    const isThere = this.stations.some((station) => placeKey(station) === placeKey(cursor));
    return `${placeWords(cursor, this)}: ${isThere ? 'a station' : 'no station'}. Enter ${isThere ? 'takes it away' : 'puts one'}.`;
  }

  override render() {
    return html`<p role="status">${this.said}</p>
      <div class="blades">
        ${BLADES.map(
          (blade) =>
            html`<div
              class="outline"
              role="application"
              tabindex="0"
              aria-label=${`Stations of blade ${blade}: arrows walk, Enter puts or takes away`}
              @click=${(event: MouseEvent) => this.handleClick(blade, event)}
              @keydown=${(event: KeyboardEvent) => this.handleKey(blade, event)}
              @focus=${() => this.handleFocus(blade)}
            >
              ${roundOutline(this.outline(blade))}
            </div>`,
        )}
      </div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-station-picker': StationPicker;
  }
}
