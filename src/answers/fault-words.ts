import type { Blade } from '../../shared/blade.ts';
import type { Remedy } from '../../shared/remedy.ts';
import type { Fault, PlaceToReadAgain } from '../faults/fault.ts';
import {
  amountText,
  distanceFigure,
  distanceText,
  joined,
  numberText,
  readingText,
  stationText,
  withUnit,
  type NumberFormat,
} from '../words/format.ts';
import { acrossWords, placeWords } from '../words/figure-words.ts';

const bladeWords = (blade: Blade | 'both') => (blade === 'both' ? 'both blades' : `blade ${blade}`);

function readingPlace(blade: Blade, fromTipMm: number, across: number, writing: NumberFormat): string {
  return `${blade}, ${stationText(fromTipMm, writing)}, ${acrossWords(across)}`;
}

function lengthText(mm: number, uMm: number | undefined, writing: NumberFormat): string {
  if (uMm === undefined) return distanceText(mm, writing);
  return withUnit(joined(distanceFigure({ valueMm: mm, uMm }, writing)), 'mm');
}

/** What a fault looks like, and what it comes from; a question where it is only asked. */
export function sayFault(fault: Fault, writing: NumberFormat): string {
  const { blade, valueMm = 0, uMm, factor = 1, grade, place } = fault;
  const isSure = grade === 'named' && fault.orElse === undefined;
  const cause = (sure: string, question: string) => (isSure ? sure : question);
  switch (fault.kind) {
    case 'zero': {
      const way = valueMm > 0 ? 'thicker' : 'thinner';
      const read = blade === 'both' ? 'Both blades read' : `Blade ${blade} reads`;
      const seen = `${read} ${amountText(valueMm, writing)} ${way} all over than before`;
      return `${seen}. ${cause('The gauge’s zero had moved.', 'Had the gauge’s zero moved?')}`;
    }
    case 'drift': {
      const way = valueMm > 0 ? 'thicker' : 'thinner';
      const seen = `From the first reading to the last the gauge came to read ${amountText(valueMm, writing)} ${way}`;
      return `${seen}. ${cause('Its zero had crept.', 'Had its zero crept?')}`;
    }
    case 'swelling': {
      const percent = numberText(Math.abs(factor - 1) * 100, 1, writing);
      const seen = `The cane reads ${percent} % ${factor > 1 ? 'thicker' : 'thinner'} than it was`;
      const state = factor > 1 ? 'wetter' : 'drier';
      return `${seen}. ${cause(`It was ${state}.`, `Was it ${state}?`)}`;
    }
    case 'swapped':
      return cause(
        'A and B were written for each other: exchanged, they fit the pass before.',
        'Were A and B written for each other? Exchanged, they fit the pass before better.',
      );
    case 'mirrored':
      return cause(
        `Left and right of ${bladeWords(blade)} were written for each other: turned, they fit the pass before.`,
        `Was ${blade === 'both' ? 'each blade' : blade} read from the other side? Left for right, it fits the pass before better.`,
      );
    case 'clip': {
      const seen = `The slopes read as if ${lengthText(valueMm, uMm, writing)} of the tip were gone`;
      return `${seen}. ${cause('A clip was not entered.', 'Was a clip not entered?')}`;
    }
    case 'shifted': {
      const way = valueMm > 0 ? 'further from' : 'nearer to';
      const seen = `The readings of ${bladeWords(blade)} lie ${lengthText(Math.abs(valueMm), uMm, writing)} ${way} the tip than they are written`;
      return isSure ? `${seen}.` : `${seen}. Did the stop slip?`;
    }
    case 'digits': {
      const where = readingPlace(blade as Blade, place!.fromTipMm, place!.across, writing);
      if (fault.valueMm === undefined) return `${where} reads thicker than the cane was. Read it again.`;
      const meant = readingText(valueMm, writing);
      return cause(
        `${where}: ${meant} fits what was expected, and what was written is a slip of it.`,
        `${where}: was ${meant} meant? Read it again.`,
      );
    }
    case 'increase': {
      const where = `${blade}, about ${placeWords(place!.fromTipMm, writing)}, ${acrossWords(place!.across)}`;
      return `${where}, reads ${amountText(valueMm, writing)} thicker than it was, and cane does not grow. Read it again.`;
    }
  }
}

/** What a remedy does to a pass: `counts with 0.4 mm clipped`. */
export function sayRemedy(remedy: Remedy, writing: NumberFormat): string {
  switch (remedy.kind) {
    case 'zero': {
      const way = remedy.addedMm > 0 ? 'less' : 'more';
      return `every reading of ${bladeWords(remedy.blade)} counts as ${amountText(remedy.addedMm, writing)} ${way}`;
    }
    case 'drift': {
      const way = remedy.driftMm > 0 ? 'less' : 'more';
      return `the first reading counts as it is, the last as ${amountText(remedy.driftMm, writing)} ${way}, and those between in step`;
    }
    case 'swelling': {
      const percent = numberText(Math.abs(remedy.factor - 1) * 100, 1, writing);
      return `every reading of ${bladeWords(remedy.blade)} counts as ${percent} % ${remedy.factor > 1 ? 'less' : 'more'}`;
    }
    case 'swapped':
      return 'A counts as B, and B as A';
    case 'mirrored':
      return `left counts as right on ${bladeWords(remedy.blade)}`;
    case 'clip':
      return `it counts with ${distanceText(remedy.clipMm, writing)} clipped before it`;
    case 'shifted': {
      const way = remedy.shiftMm > 0 ? 'further from' : 'nearer to';
      return `every reading of ${bladeWords(remedy.blade)} counts ${distanceText(Math.abs(remedy.shiftMm), writing)} ${way} the tip`;
    }
    case 'digits':
      return `${readingPlace(remedy.blade, remedy.fromTipMm, remedy.across, writing)} counts as ${readingText(remedy.thicknessMm, writing)}`;
  }
}

/** `B, 10 mm, right reads 35 where 40 was expected: a dig, or a slip? Read it again.` */
export function sayReadAgain(
  { blade, fromTipMm, across, readMm, expectedMm, inDoubt }: PlaceToReadAgain,
  writing: NumberFormat,
): string {
  const where = readingPlace(blade, fromTipMm, across, writing);
  const [read, expected] = [readMm, Math.round(expectedMm * 100) / 100].map((mm) => readingText(mm, writing));
  return `${where}, reads ${read} where ${expected} was expected: a dig, or a slip? Read this place again; until then it ${inDoubt ? 'weighs little' : 'counts'}.`;
}
