import { zonesAt, type ReedAtPass } from '../answers/benched-reed.ts';
import type { Point } from '../numerics/polygon.ts';
import type { Step } from './next-strokes.ts';

/** Outlines of a step's zone, on the side that is meant. */
export function stepOutlines({ zone, side }: Step, own: ReedAtPass): readonly (readonly Point[])[] {
  const placed = zonesAt(own.benched, own.pass).find(({ name }) => name === zone);
  return (placed?.outlines ?? []).filter((outline) => {
    const balance = outline.reduce((sum, [, across]) => sum + across, 0);
    return side === 'both' || (side === 'left' ? balance < 0 : balance > 0);
  });
}
