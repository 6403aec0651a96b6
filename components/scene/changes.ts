import type { ReliefSettings } from '../relief/relief-data.ts';

/** Whether anything is another that bodies are made of. */
export function isOtherBody(before: ReliefSettings, now: ReliefSettings): boolean {
  const isFolded = ({ stance, blades }: ReliefSettings) =>
    stance === 'staple' && blades.some(({ print }) => print?.is === 'bridges');
  return (
    before.blades !== now.blades ||
    before.factor !== now.factor ||
    before.differenceFactor !== now.differenceFactor ||
    before.unit !== now.unit ||
    before.cutAtMm !== now.cutAtMm ||
    before.clipMm !== now.clipMm ||
    isFolded(before) !== isFolded(now)
  );
}

/** Whether something else was taken off now. */
export function isOtherSlice(before: ReliefSettings, now: ReliefSettings): boolean {
  const slices = ({ blades }: ReliefSettings) =>
    blades.map(({ print }) => (print?.is === 'lifted' ? print.difference : undefined));
  const [old, own] = [slices(before), slices(now)];
  return own.some((slice, k) => slice && old[k] && slice !== old[k]);
}
