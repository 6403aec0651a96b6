/** A figure with its standard uncertainty (k = 1). */
export interface Estimate {
  readonly valueMm: number;
  readonly uMm: number;
}
