import { describe, expect, it } from 'vitest';
import { cents, nearestNote, noteHz } from '../../src/climate/pitch.ts';
import { crowFrom, type Crow, type NoCrow } from '../../src/crow/crow.ts';
import { makeEar } from '../../src/crow/ear.ts';
import { normalPairs } from '../../src/numerics/normal-draws.ts';
import { seededRandom } from '../seeded-random.ts';

const LENGTH = 4096;
const STEP = 2048;

interface Synthetic {
  readonly lowHz: number;
  readonly low?: number;
  readonly octave?: number;
  readonly noise?: number;
  /** Change of pitch over the whole, cents; the pitch at its middle is `lowHz`. */
  readonly driftCents?: number;
  readonly seconds?: number;
  readonly sampleRate?: number;
  readonly seed?: number;
}

/** A crow made of sines: its phase is summed sample by sample, so that the pitch at every moment is known exactly. */
function synthesize(crow: Synthetic): { samples: Float32Array; sampleRate: number } {
  const {
    lowHz,
    low = 0.2,
    octave = 0.2,
    noise = 0,
    driftCents = 0,
    seconds = 2,
    sampleRate = 48_000,
    seed = 1,
  } = crow;
  const count = Math.round(seconds * sampleRate);
  const hiss = normalPairs(seededRandom(seed), count);
  const samples = new Float32Array(count);
  let phase = seed;
  for (let i = 0; i < count; i++) {
    const hz = lowHz * 2 ** ((driftCents * (i / count - 0.5)) / 1200);
    phase += (2 * Math.PI * hz) / sampleRate;
    samples[i] = low * Math.sin(phase) + octave * Math.sin(2 * phase + 0.7) + noise * hiss[i]!;
  }
  return { samples, sampleRate };
}

function hear(crow: Synthetic): Crow | NoCrow {
  const { samples, sampleRate } = synthesize(crow);
  const ear = makeEar(LENGTH, sampleRate);
  const heard = [];
  for (let at = 0; at + LENGTH <= samples.length; at += STEP)
    heard.push(ear(samples.subarray(at, at + LENGTH)));
  return crowFrom(heard, STEP / sampleRate, LENGTH / sampleRate);
}

function crowOf(crow: Synthetic): Crow {
  const found = hear(crow);
  if (found.kind !== 'crow') throw new Error(`heard ${found.kind}`);
  return found;
}

describe('a synthetic crow of two tones an octave apart', () => {
  // Equal temperament (ISO 16:1975 for the standard): C5 at A = 442 is 525.6295 Hz.
  const C5 = noteHz('C5', 442)!;

  it('is recovered within 3 cents, wherever it lies and however its octaves are balanced', () => {
    const random = seededRandom(7);
    for (let i = 0; i < 10; i++) {
      const lowHz = C5 * 2 ** ((random() * 600 - 300) / 1200);
      const balanceDb = random() * 40 - 20;
      const octave = 0.1 * 10 ** (balanceDb / 40);
      const low = 0.1 / 10 ** (balanceDb / 40);
      const found = crowOf({
        lowHz,
        low,
        octave,
        seconds: 0.8,
        sampleRate: i % 2 ? 44_100 : 48_000,
        seed: i,
      });
      expect(Math.abs(cents(lowHz, found.hz))).toBeLessThan(3);
      expect(Math.abs(found.octaveBalanceDb!.value - balanceDb)).toBeLessThan(0.3);
      expect(Math.abs(found.octaveOffCents!)).toBeLessThan(3);
    }
  });

  it('is recovered within 3 cents in noise, and says how sure it is', () => {
    // Noise of 0.06 beside sines of 0.2: 7 dB under each of them, louder than any quiet room.
    for (let seed = 1; seed <= 4; seed++) {
      const found = crowOf({ lowHz: C5 * 1.007, noise: 0.06, seconds: 1.5, seed });
      expect(Math.abs(cents(C5 * 1.007, found.hz))).toBeLessThan(3);
      expect(found.uCents).toBeLessThan(1);
      expect(Math.abs(found.octaveBalanceDb!.value)).toBeLessThan(0.5);
    }
  });

  it('is recovered within 3 cents while it drifts, and the drift with it', () => {
    for (const driftCents of [-40, -10, 25, 60]) {
      const found = crowOf({ lowHz: C5, driftCents, noise: 0.02 });
      expect(Math.abs(cents(C5, found.hz))).toBeLessThan(3);
      expect(Math.abs(found.driftCentsPerS.value - driftCents / 2)).toBeLessThan(1);
      expect(found.wanderCents).toBeLessThan(1.5);
    }
  });

  it('has its name and cents by equal temperament', () => {
    const found = crowOf({ lowHz: C5 * 2 ** (-5 / 1200) });
    const note = nearestNote(found.hz, 442);
    expect(note.note).toBe('C5');
    expect(Math.abs(note.cents + 5)).toBeLessThan(3);
  });

  it('is one note without its octave', () => {
    const found = crowOf({ lowHz: C5, octave: 0, noise: 0.005 });
    expect(Math.abs(cents(C5, found.hz))).toBeLessThan(3);
    expect(found.octaveBalanceDb).toBeUndefined();
  });

  /** Hears what a function of time gives, for as long as a crow is held. */
  function hearSound(sound: (seconds: number) => number, seconds = 1.5): Crow {
    const sampleRate = 48_000;
    const samples = Float32Array.from({ length: seconds * sampleRate }, (_, i) => sound(i / sampleRate));
    const ear = makeEar(LENGTH, sampleRate);
    const heard = [];
    for (let at = 0; at + LENGTH <= samples.length; at += STEP)
      heard.push(ear(samples.subarray(at, at + LENGTH)));
    const found = crowFrom(heard, STEP / sampleRate, LENGTH / sampleRate);
    if (found.kind !== 'crow') throw new Error(`heard ${found.kind}`);
    return found;
  }

  it('is recovered within 3 cents when its octave is out of tune, and says by how much', () => {
    for (const off of [-15, 8, 20]) {
      const octaveHz = 2 * C5 * 2 ** (off / 1200);
      const found = hearSound(
        (t) => 0.2 * Math.sin(2 * Math.PI * C5 * t) + 0.15 * Math.sin(2 * Math.PI * octaveHz * t),
      );
      expect(Math.abs(cents(C5, found.hz))).toBeLessThan(3);
      expect(Math.abs(found.octaveOffCents! - off)).toBeLessThan(3);
    }
  });

  it('is recovered within 3 cents through a rattle, and when it is rich in harmonics', () => {
    const rich = (t: number) =>
      [1, 2, 3, 4, 5, 6, 7, 8].reduce(
        (sum, k) => sum + (0.2 / k) * Math.sin(2 * Math.PI * k * C5 * t + k),
        0,
      );
    expect(Math.abs(cents(C5, hearSound(rich).hz))).toBeLessThan(3);
    const rattle = (t: number) => (1 + 0.7 * Math.sin(2 * Math.PI * 33 * t)) * rich(t);
    expect(Math.abs(cents(C5, hearSound(rattle).hz))).toBeLessThan(3);
  });

  it('wanders as far as it was made to', () => {
    // Slow vibrato of +-20 cents: its standard deviation is 20 / sqrt(2) = 14.1 cents.
    const sampleRate = 48_000;
    const samples = new Float32Array(3 * sampleRate);
    let phase = 0;
    for (let i = 0; i < samples.length; i++) {
      const off = 20 * Math.sin((2 * Math.PI * 1.5 * i) / sampleRate);
      phase += (2 * Math.PI * C5 * 2 ** (off / 1200)) / sampleRate;
      samples[i] = 0.2 * Math.sin(phase) + 0.1 * Math.sin(2 * phase);
    }
    const ear = makeEar(LENGTH, sampleRate);
    const heard = [];
    for (let at = 0; at + LENGTH <= samples.length; at += STEP)
      heard.push(ear(samples.subarray(at, at + LENGTH)));
    const found = crowFrom(heard, STEP / sampleRate, LENGTH / sampleRate);
    expect(found.kind === 'crow' && Math.abs(found.wanderCents - 14.1)).toBeLessThan(1.5);
  });
});

describe('what is no crow', () => {
  it('is silence when nothing sounds', () => {
    expect(hear({ lowHz: 500, low: 0, octave: 0 }).kind).toBe('silence');
    expect(hear({ lowHz: 500, low: 0, octave: 0, noise: 0.0005 }).kind).toBe('silence');
    expect(crowFrom([], 0.04, 0.085).kind).toBe('silence');
  });

  it('is noise when there is no note in it', () => {
    for (let seed = 1; seed <= 5; seed++)
      expect(hear({ lowHz: 500, low: 0, octave: 0, noise: 0.1, seed }).kind).toBe('noise');
  });
});
