import { ACROSS_SHADOWS } from '../across-shadows.ts';

/** The invented reeds are asked for, or are to be cleared away. */
export class InventedReedsEvent extends Event {
  /** A few, a whole library of them, or none any more. */
  readonly wanted: 'few' | 'many' | false;

  constructor(wanted: 'few' | 'many' | false) {
    super('bench-invented-reeds', ACROSS_SHADOWS);
    this.wanted = wanted;
  }
}
