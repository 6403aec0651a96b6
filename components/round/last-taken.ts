/** The same reading over two channels within this time is one reading. Common practice, no source. */
const DOUBLE_MS = 150;
/** Enter pressed again this soon after the last reading is a slip of the hand. Common practice, no source. */
const BOUNCE_MS = 600;

/** The reading taken last, and whether what comes next is only its echo. */
export class LastTaken {
  private last:
    | { readonly thicknessMm: number; readonly atMs: number; readonly from: 'keys' | 'gauge' }
    | undefined;

  /** Whether a reading came just now by the other road; otherwise it is the last one from now on. */
  isTold(thicknessMm: number, atMs: number, from: 'keys' | 'gauge'): boolean {
    const { last } = this;
    const isSame = last?.thicknessMm === thicknessMm && last.from !== from;
    if (isSame && atMs - last.atMs < DOUBLE_MS) return true;
    this.last = { thicknessMm, atMs, from };
    return false;
  }

  /** Whether Enter was pressed too soon after it to be meant. */
  isBounce(atMs: number): boolean {
    return this.last !== undefined && atMs - this.last.atMs < BOUNCE_MS;
  }
}
