import type { Trial } from '../../shared/trial.ts';

/**
 * How a reed speaks, 1 late to 5 at once: as it was said of the whole, else as late as the latest of the notes that were tried.
 * Steps of a maker's scale are ranked, never averaged. Undefined when none was tried.
 */
export function responseOf({
  response,
  lowD,
  lowBFlat,
  middleG,
}: Pick<Partial<Trial>, 'response' | 'lowD' | 'lowBFlat' | 'middleG'>): number | undefined {
  const tried = [lowD, lowBFlat, middleG].filter((step) => step !== undefined);
  return response ?? (tried.length > 0 ? Math.min(...tried) : undefined);
}
