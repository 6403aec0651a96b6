import type { Blade, Place } from '../../shared/blade.ts';
import type { ReedAtPass } from '../answers/fitted-reed.ts';
import { standingReadings } from '../answers/standing-readings.ts';
import type { MapGrid } from '../figures/surface-map.ts';

/** A reading speaks for the wood this near to it: half the way between the stations of a usual full map, or a little more. */
const ALONG_MM = 2.1;
const ACROSS = 0.31;

/** 1 at places of a grid that a standing reading of the blade speaks for. */
export const wasRead = ({ benched, pass }: ReedAtPass, blade: Blade, grid: MapGrid): Uint8Array =>
  spokenFor(standingReadings(benched, pass), blade, grid);

/** 1 at places of a grid that one of these readings speaks for. */
export function spokenFor(readings: readonly Place[], blade: Blade, { ysMm, us }: MapGrid): Uint8Array {
  const own = readings.filter((reading) => reading.blade === blade);
  const read = new Uint8Array(ysMm.length * us.length);
  ysMm.forEach((y, row) => {
    const level = own.filter(({ fromTipMm }) => Math.abs(fromTipMm - y) <= ALONG_MM);
    us.forEach((u, column) => {
      if (level.some(({ across }) => Math.abs(across - u) <= ACROSS)) read[row * us.length + column] = 1;
    });
  });
  return read;
}
