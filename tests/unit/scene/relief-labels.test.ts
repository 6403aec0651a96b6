import { expect, it } from 'vitest';
import type { ReliefBlade, ReliefPrint } from '../../../components/relief/relief-data.ts';
import { labelsOf } from '../../../components/relief/relief-labels.ts';
import { flatBlade } from './flat-reed.ts';

/** A reading near its floor, an odd one, and a common one, under what a question prints. */
function labelled(print?: ReliefPrint) {
  const marks = [
    { fromTipMm: 10, across: 0.4, valueMm: 0.35, nearFloor: true, odd: 'near its floor' },
    { fromTipMm: 14, across: 0.4, valueMm: 0.52, odd: 'odd' },
    { fromTipMm: 16, across: 0, valueMm: 0.44 },
  ];
  const blade: ReliefBlade = { ...flatBlade('B'), marks, ...(print && { print }) };
  return labelsOf(blade, 0, false, { unit: 'hundredths', decimal: 'point' }).filter(({ mark }) => mark);
}
const { ysMm, us, halfWidthMm, valuesMm } = flatBlade('B');
const lacking = [{ fromTipMm: 10, across: 0.4, valueMm: -0.06 }];
const difference = { ysMm, us, halfWidthMm, valuesMm, marks: lacking };

it('marks a place near its floor where thickness is shown', () => {
  const marked = labelled().filter(({ kind }) => kind === 'mark');
  expect(marked.map(({ text }) => text)).toEqual(['35', '52']);
});

it.each(['lifted', 'bridges'] as const)('leaves the figure of a difference uncovered, %s', (is) => {
  const labels = labelled({ is, difference });
  expect(labels.map(({ kind, text }) => `${kind} ${text}`)).toEqual([
    'difference −6',
    'mark 52',
    'reading 35',
    'reading 44',
  ]);
});
