import type { Act } from '../../shared/round.ts';
import { ACROSS_SHADOWS } from '../across-shadows.ts';

/** The round is put down, half done or not; everything read is kept and waits. */
export class RoundPutDownEvent extends Event {
  constructor() {
    super('bench-round-put-down', ACROSS_SHADOWS);
  }
}

/** Every station of the round is dealt with, and kept. */
export class RoundEndEvent extends Event {
  /** Every act of the round. */
  readonly acts: readonly Act[];

  constructor(acts: readonly Act[]) {
    super('bench-round-end');
    this.acts = acts;
  }
}

/** The round is finished and is to become a pass. */
export class RoundFinishEvent extends Event {
  /** Every act of the round, all of them kept. */
  readonly acts: readonly Act[];
  /** What the gauge showed on the bare tongue at the end, mm, where the maker looked. */
  readonly zeroAfterMm: number | undefined;

  constructor(acts: readonly Act[], zeroAfterMm: number | undefined) {
    super('bench-round-finish');
    this.acts = acts;
    this.zeroAfterMm = zeroAfterMm;
  }
}

/** The maker said what whole numbers from the gauge count. */
export class RoundCountEvent extends Event {
  readonly count: 'hundredths' | 'thousandths' | 'thou';

  constructor(count: RoundCountEvent['count']) {
    super('bench-round-count');
    this.count = count;
  }
}

declare global {
  interface HTMLElementEventMap {
    'bench-round-put-down': RoundPutDownEvent;
    'bench-round-end': RoundEndEvent;
    'bench-round-finish': RoundFinishEvent;
    'bench-round-count': RoundCountEvent;
  }
}
