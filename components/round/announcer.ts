import type { Id } from '../../shared/ids.ts';
import type { RoundFormat } from '../../src/round/gauge-count.ts';
import type { RoundDesk } from './round-desk.ts';
import { endSentence, spokenWords } from './round-words.ts';
import type { Voice } from './voice.ts';

/** Says what was heard as soon as it is kept, odd or not, and once that the round has ended. */
export class Announcer {
  private readonly waiting = new Map<Id, () => void>();
  private toldEnd = false;

  /** Remembers the reading just taken, to be said when it is on the disk. */
  expect(desk: RoundDesk, writing: RoundFormat, voice: Voice): void {
    const { last } = desk;
    if (last?.kind !== 'taken') return;
    const words = spokenWords(last.thicknessMm, desk.here?.station, writing);
    const kind = desk.oddnessOf(last.id) ? 'odd' : 'taken';
    this.waiting.set(last.id, () => {
      voice[kind](words);
      if (desk.here || this.toldEnd) return;
      this.toldEnd = true;
      voice.end(endSentence(desk));
    });
  }

  /** Says everything that has been kept since. */
  say(desk: RoundDesk): void {
    for (const [id, say] of this.waiting) {
      if (!desk.isKept(id)) continue;
      this.waiting.delete(id);
      say();
    }
  }
}
