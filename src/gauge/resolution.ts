/** Standard uncertainty of a value known to a step of d: rectangular over d. Source: JCGM 100:2008, F.2.2.1. */
export function resolutionU(step: number): number {
  return step / Math.sqrt(12);
}
