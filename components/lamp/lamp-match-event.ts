/** The maker matches the lamp: this attenuation looks as their reed does against their light. */
export class LampMatchEvent extends Event {
  readonly attenuationPerMm: number;
  /** False while the slider is still being moved. */
  readonly settled: boolean;

  constructor(attenuationPerMm: number, settled: boolean) {
    super('bench-lamp-match');
    this.attenuationPerMm = attenuationPerMm;
    this.settled = settled;
  }
}

declare global {
  interface HTMLElementEventMap {
    'bench-lamp-match': LampMatchEvent;
  }
}
