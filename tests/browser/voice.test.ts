import { expect } from 'chai';
import { speech, tones, type Speaking, type Voice } from '../../components/round/voice.ts';

/** The browser's takes no voice that it did not make itself. */
class Utterance {
  voice: unknown;
  readonly text: string;
  constructor(text: string) {
    this.text = text;
  }
}

/** Records what is said and sounded. */
function listener(voices: readonly Pick<SpeechSynthesisVoice, 'localService' | 'lang'>[]) {
  const said: string[] = [];
  const spokenBy: unknown[] = [];
  const sounded: string[] = [];
  const speaking: Speaking = {
    getVoices: () => voices as SpeechSynthesisVoice[],
    cancel: () => undefined,
    speak({ text, voice }) {
      said.push(text);
      spokenBy.push(voice);
    },
  };
  const fallback: Voice = {
    taken: () => void sounded.push('taken'),
    odd: () => void sounded.push('odd'),
    end: () => void sounded.push('end'),
  };
  return { said, spokenBy, sounded, voice: speech(speaking, fallback) };
}

describe('the voice of a round', () => {
  it('never speaks by a voice that would send the words elsewhere: tones instead', () => {
    const { said, sounded, voice } = listener([{ localService: false, lang: 'en-GB' }]);
    voice.taken('47. Next B, 10 mm, right.');
    voice.odd('35.');
    voice.end('140 read.');
    expect(said).to.deep.equal([]);
    expect(sounded).to.deep.equal(['taken', 'odd', 'end']);
  });

  it('speaks by a voice of this machine, one of the words’ own language first, and sounds what must not be missed', () => {
    const local = { localService: true, lang: 'en-GB' };
    const { said, spokenBy, sounded, voice } = listener([
      { localService: false, lang: 'en-GB' },
      { localService: true, lang: 'de-DE' },
      local,
    ]);
    const { SpeechSynthesisUtterance } = globalThis;
    Object.assign(globalThis, { SpeechSynthesisUtterance: Utterance });
    voice.taken('47. Next B, 10 mm, right.');
    voice.odd('35.');
    voice.end('140 read.');
    Object.assign(globalThis, { SpeechSynthesisUtterance });
    expect(spokenBy).to.deep.equal([local, local, local]);
    expect(said).to.deep.equal(['47. Next B, 10 mm, right.', '35.', '140 read.']);
    expect(sounded).to.deep.equal(['odd', 'end']);
  });

  it('has a tone for each outcome, told apart by number and direction', () => {
    const beeps: number[] = [];
    const start = OscillatorNode.prototype.start;
    OscillatorNode.prototype.start = function (this: OscillatorNode) {
      beeps.push(this.frequency.value);
    };
    const stop = OscillatorNode.prototype.stop;
    OscillatorNode.prototype.stop = () => undefined;
    try {
      const heard = (kind: keyof Voice) => {
        beeps.length = 0;
        tones()[kind]('');
        return [...beeps];
      };
      const [taken, odd, end] = [heard('taken'), heard('odd'), heard('end')];
      expect([taken.length, odd.length, end.length]).to.deep.equal([1, 2, 3]);
      expect(odd[0]).to.be.greaterThan(odd[1]!);
      expect(end[0]).to.be.lessThan(end[2]!);
    } finally {
      OscillatorNode.prototype.start = start;
      OscillatorNode.prototype.stop = stop;
    }
  });
});
