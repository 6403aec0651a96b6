import type { Fault, PassFaults, PlaceToReadAgain } from './fault.ts';
import { regionsOf, type Region } from './growth.ts';
import type { Finding, Found, Judgement } from './judge-pass.ts';
import { isDig, type OddReading } from './single-readings.ts';
import type { Labelling } from './suspicion.ts';

/** An increase that no finding explains. */
const INCREASE = { mm: 0.012, askedSds: 5, namedSds: 7 };

/** What was found in a pass, in the words and remedies of the bench. */
export function describeFaults(
  index: number,
  { findings, explanation }: Judgement,
  odd: readonly OddReading[],
): PassFaults {
  const whole = findings.flatMap(wholeFaults);
  const sound = explanation.changes.filter(({ reading }) => odd.every((one) => one.reading !== reading));
  return {
    index,
    faults: [...whole, ...odd.flatMap(digitsFault), ...regionsOf(sound).flatMap(increaseFault)],
    readAgain: odd.flatMap(placeToReadAgain),
  };
}

/** Odd readings of a pass that nothing else is known of. */
export function describeOdd(index: number, odd: readonly OddReading[]): PassFaults {
  const low = odd.flatMap(placeToReadAgain);
  return {
    index,
    faults: odd.flatMap(digitsFault),
    readAgain: low.map((place) => ({ ...place, inDoubt: true })),
  };
}

function wholeFaults(finding: Finding): Fault[] {
  const { suspicion, grade, evidence } = finding;
  if (suspicion.kind === 'labels') return labelFaults(suspicion.labelling, { grade, evidence });
  const faults = [finding, ...finding.rivals].flatMap(offsetFaults);
  return faults.map((fault) => {
    const orElse = faults.filter((other) => other !== fault).map(({ kind }) => kind);
    return orElse.length > 0 ? { ...fault, orElse } : fault;
  });
}

function offsetFaults({ suspicion, amount, u, grade, evidence }: Found): Fault[] {
  if (suspicion.kind === 'labels') return [];
  const { kind, blade } = suspicion;
  const found = { blade, grade, evidence };
  switch (kind) {
    case 'zero': {
      const addedMm = rounded(amount, 0.001);
      const uMm = rounded(u, 0.0001);
      return [{ ...found, kind, valueMm: addedMm, uMm, remedy: { kind, blade, addedMm } }];
    }
    case 'drift': {
      const driftMm = rounded(amount, 0.001);
      const uMm = rounded(u, 0.0001);
      return [{ ...found, kind, valueMm: driftMm, uMm, remedy: { kind, driftMm } }];
    }
    case 'swelling': {
      const factor = rounded(1 + amount, 0.001);
      return [{ ...found, kind, factor, remedy: { kind, blade, factor } }];
    }
    case 'shifted':
      return lengthFaults({ ...found, uMm: rounded(u, 0.001) }, rounded(amount, 0.01));
  }
}

/** Mirrored before swapped: a mirrored blade goes by the name under which it is written. */
function labelFaults({ swapped, mirrored }: Labelling, found: Pick<Fault, 'grade' | 'evidence'>): Fault[] {
  const [first, second] = mirrored;
  const blade = second ? 'both' : first;
  return [
    ...(blade ? [{ ...found, kind: 'mirrored', blade, remedy: { kind: 'mirrored', blade } } as const] : []),
    ...(swapped ? [{ ...found, kind: 'swapped', blade: 'both', remedy: { kind: 'swapped' } } as const] : []),
  ];
}

/** From one pass alone, a clip that was not entered and readings taken too near the cork end look alike. */
function lengthFaults(found: Pick<Fault, 'blade' | 'grade' | 'evidence' | 'uMm'>, shiftMm: number): Fault[] {
  const remedy = { kind: 'shifted', blade: found.blade, shiftMm } as const;
  const shifted = { ...found, kind: 'shifted', valueMm: shiftMm, remedy } as const;
  if (found.blade !== 'both' || shiftMm < 0) return [shifted];
  return [{ ...found, kind: 'clip', valueMm: shiftMm, remedy: { kind: 'clip', clipMm: shiftMm } }, shifted];
}

function digitsFault(odd: OddReading): Fault[] {
  if (isDig(odd)) return [];
  const { reading, expectedMm, sds, meantMm, grade } = odd;
  const { blade, fromTipMm, across } = reading;
  const fault: Fault = {
    kind: 'digits',
    blade,
    grade,
    evidence: Math.abs(sds),
    place: { fromTipMm, across },
    expectedMm: rounded(expectedMm, 0.001),
  };
  if (meantMm === undefined) return [fault];
  const thicknessMm = rounded(meantMm, 1e-6);
  const remedy = { kind: 'digits', blade, fromTipMm, across, thicknessMm } as const;
  return [{ ...fault, valueMm: thicknessMm, remedy }];
}

function increaseFault({ changes, meanMm, uMm }: Region): Fault[] {
  const evidence = meanMm / uMm;
  if (meanMm < INCREASE.mm || evidence < INCREASE.askedSds) return [];
  const { blade, across } = changes[0]!.reading;
  const fromTipMm = changes.reduce((sum, { reading }) => sum + reading.fromTipMm, 0) / changes.length;
  return [
    {
      kind: 'increase',
      blade,
      grade: evidence >= INCREASE.namedSds ? 'named' : 'asked',
      evidence,
      valueMm: rounded(meanMm, 0.001),
      place: { fromTipMm: rounded(fromTipMm, 0.1), across: Math.sign(across) * 0.6 },
    },
  ];
}

function placeToReadAgain(odd: OddReading): PlaceToReadAgain[] {
  if (!isDig(odd)) return [];
  const { reading, expectedMm } = odd;
  const { blade, fromTipMm, across, thicknessMm } = reading;
  return [{ blade, fromTipMm, across, readMm: thicknessMm, expectedMm: rounded(expectedMm, 0.001) }];
}

function rounded(value: number, step: number): number {
  return Number((Math.round(value / step) * step).toFixed(6));
}
