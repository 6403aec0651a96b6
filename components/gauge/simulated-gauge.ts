import type { Place } from '../../shared/blade.ts';
import { GaugeHub } from './gauge-hub.ts';
import type { GaugeListener, GaugeSource, GaugeState } from './gauge-source.ts';

export interface SimulatedGaugeOptions {
  /** Invented thickness at a place, mm. */
  readonly thicknessMm: (place: Place) => number;
  /** Where the reed stands on the tongue; undefined when the round has ended. */
  readonly place: () => Place | undefined;
  /** Scatter of a reading, from numbers between 0 and 1. */
  readonly random: () => number;
  readonly scatterMm: number;
  readonly stepMm: number;
}

/** How a reading of the simulated gauge is marked in the record. */
export const SIMULATED = 'simulated';

/** A gauge that is not there: presses its own button, for trying the bench and for tests. Its readings are invented. */
export class SimulatedGauge implements GaugeSource {
  private readonly hub = new GaugeHub();
  private readonly options: SimulatedGaugeOptions;
  private timer: ReturnType<typeof setInterval> | undefined;
  readonly name = 'Simulated gauge (invented readings)';

  constructor(options: SimulatedGaugeOptions) {
    this.options = options;
  }

  get state(): GaugeState {
    return this.hub.state;
  }

  listen(listener: GaugeListener): () => void {
    return this.hub.listen(listener);
  }

  release(): void {
    // It sends on its button only, and so holds nothing.
  }

  /** Presses the button once. @returns False when there is no place left to read. */
  press(): boolean {
    const { place, thicknessMm, random, scatterMm, stepMm } = this.options;
    const here = place();
    if (!here) return false;
    // The sum of twelve uniform numbers less six is near enough normal. Common practice, no source.
    const normal = Array.from({ length: 12 }, random).reduce((sum, value) => sum + value, -6);
    const steps = Math.max(1, Math.round((thicknessMm(here) + scatterMm * normal) / stepMm));
    this.hub.tell({
      kind: 'reading',
      thicknessMm: Number((steps * stepMm).toFixed(6)),
      method: SIMULATED,
    });
    return true;
  }

  /** Presses its button by itself until the round has ended. */
  run(everyMs: number): void {
    this.stop();
    this.hub.tell({ kind: 'state', state: { is: 'open' } });
    this.timer = setInterval(() => {
      if (!this.press()) this.stop();
    }, everyMs);
  }

  stop(): void {
    clearInterval(this.timer);
    this.timer = undefined;
    this.hub.tell({ kind: 'state', state: { is: 'closed' } });
  }

  close(): Promise<void> {
    this.stop();
    return Promise.resolve();
  }
}
