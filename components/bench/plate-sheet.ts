import type { Place } from '../../shared/blade.ts';
import type { KeyEntry } from '../map/map-key.ts';
import type { Quantity } from '../theme/ramp.ts';
import type { Plate } from './plate-data.ts';
import type { Carried } from './relief-blades.ts';

/** What is printed on both blades, and the words about it. */
export interface PlateSheet {
  readonly plate: Plate;
  readonly quantity: Quantity;
  readonly heading: string;
  readonly caption: string;
  readonly note?: string;
  /** For those who cannot see the maps, where that is not the heading. */
  readonly label?: string;
  readonly ends?: readonly [low: string, high: string];
  readonly key: readonly KeyEntry[];
  /** How the body of the reed carries it; its thickness alone while absent. */
  readonly carried?: Carried;
  /** How much a clip would take off the tip, mm: drawn as a cut on the body. */
  readonly clipMm?: number;
  /** What stands at a place, in a line. */
  readonly probed: (place: Place) => string;
}
