import type { ReactiveControllerHost } from 'lit';
import type { Zone } from '../../shared/style.ts';
import { withCorner, type CornerAt, type Drawn } from '../../src/blade/edit-zone.ts';
import { FINE_STEP, snapPlace, STEP } from '../../src/round/snap-place.ts';
import { cornerUnder, zonePlaceUnder, type ZonePicture } from './zone-picture.ts';

/** What a hand works on. */
export interface ZoneBench {
  readonly drawing: () => SVGSVGElement;
  readonly blade: () => Pick<ZonePicture, 'bladeLengthMm' | 'halfWidthMm'>;
  readonly chosen: () => Zone | undefined;
  /** A zone was drawn. */
  readonly draw: (drawn: Drawn) => void;
  /** A corner of the chosen zone was put elsewhere. */
  readonly drag: (zone: Zone) => void;
}

/** A pointer on the picture of zones: takes corners, drags them, draws zones from one corner to the other. */
export class ZoneHand {
  private readonly host: Pick<ReactiveControllerHost, 'requestUpdate'>;
  private readonly bench: ZoneBench;
  /** The corner that is in the hand. */
  corner: CornerAt | undefined;
  /** The chosen zone while one of its corners is dragged. */
  dragged: Zone | undefined;
  drawn: Drawn | undefined;
  isDrawing = false;

  constructor(host: Pick<ReactiveControllerHost, 'requestUpdate'>, bench: ZoneBench) {
    this.host = host;
    this.bench = bench;
  }

  take(corner: CornerAt | undefined): void {
    this.corner = corner;
    this.host.requestUpdate();
  }

  /** Begins to draw, or leaves it. */
  begin(): void {
    this.isDrawing = !this.isDrawing;
    this.host.requestUpdate();
  }

  readonly down = (event: PointerEvent) => {
    const { bench } = this;
    if (this.isDrawing) {
      const from = this.place(event, STEP);
      this.drawn = { from, to: from };
    } else {
      const chosen = bench.chosen();
      this.corner = chosen && cornerUnder(bench.drawing(), bench.blade(), chosen, event);
      this.dragged = this.corner && chosen;
    }
    if (this.drawn ?? this.dragged) bench.drawing().setPointerCapture(event.pointerId);
    this.host.requestUpdate();
  };

  readonly move = (event: PointerEvent) => {
    const { drawn, dragged, corner } = this;
    if (drawn) this.drawn = { ...drawn, to: this.place(event, STEP) };
    else if (dragged && corner) this.dragged = withCorner(dragged, corner, this.place(event, FINE_STEP));
    else return;
    this.host.requestUpdate();
  };

  readonly up = () => {
    const { drawn, dragged, bench } = this;
    this.dragged = this.drawn = undefined;
    if (drawn) bench.draw(drawn);
    else if (dragged && dragged !== bench.chosen()) bench.drag(dragged);
    this.host.requestUpdate();
  };

  private place(event: MouseEvent, step: typeof STEP) {
    const { bench } = this;
    const blade = bench.blade();
    return snapPlace(zonePlaceUnder(bench.drawing(), blade, event), blade.bladeLengthMm, step);
  }
}
