/** The maker matched the lamp: this attenuation looks as their reed does against their light. */
export class LampMatchEvent extends Event {
  readonly attenuationPerMm: number;

  constructor(attenuationPerMm: number) {
    super('bench-lamp-match', { bubbles: true, composed: true });
    this.attenuationPerMm = attenuationPerMm;
  }
}

declare global {
  interface HTMLElementEventMap {
    'bench-lamp-match': LampMatchEvent;
  }
}
