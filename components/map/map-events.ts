import type { Blade, Place } from '../../shared/blade.ts';
import type { ProfileLine } from './map-data.ts';
import { ACROSS_SHADOWS } from '../across-shadows.ts';

/** The pointer or the keys rest on a place of a blade, or have left the blade. */
export class MapProbeEvent extends Event {
  readonly place: Place | undefined;

  constructor(place: Place | undefined) {
    super('bench-map-probe', ACROSS_SHADOWS);
    this.place = place;
  }
}

/** The reading at a station is asked for. */
export class MapStationOpenEvent extends Event {
  readonly place: Place;

  constructor(place: Place) {
    super('bench-map-station-open', ACROSS_SHADOWS);
    this.place = place;
  }
}

/** The place that faces the one in focus, on the other blade, is asked for. */
export class MapFacingEvent extends Event {
  readonly place: Place;

  constructor(place: Place) {
    super('bench-map-facing', ACROSS_SHADOWS);
    this.place = place;
  }
}

/** The line that a profile is drawn along was dragged or stepped. */
export class MapLineMoveEvent extends Event {
  readonly blade: Blade;
  readonly line: ProfileLine;

  constructor(blade: Blade, line: ProfileLine) {
    super('bench-map-line-move', ACROSS_SHADOWS);
    this.blade = blade;
    this.line = line;
  }
}

declare global {
  interface HTMLElementEventMap {
    'bench-map-probe': MapProbeEvent;
    'bench-map-station-open': MapStationOpenEvent;
    'bench-map-facing': MapFacingEvent;
    'bench-map-line-move': MapLineMoveEvent;
  }
}
