import { expect, it } from 'vitest';
import { settled } from '../../../src/answers/fitted-reed.ts';
import { findFaults } from '../../../src/faults/find-faults.ts';
import { faultOptions, judgedPasses } from '../../../src/faults/judged-passes.ts';
import { reportReed } from '../../../src/report/reed-report.ts';
import { scenarioReed } from '../../scenario-reed.ts';

const faultsOf = ({ assembled, passes }: ReturnType<typeof scenarioReed>) =>
  findFaults(judgedPasses(assembled, passes), faultOptions(assembled));

it.each(['m-142-swapped', 'm-142-b-mirrored'])(
  'judges the noise of %s without the pass in doubt, as the report does',
  (label) => {
    const benched = scenarioReed(label);
    const { model } = settled(benched, faultsOf(benched));
    const { passes } = reportReed({ reed: benched.reed, passes: benched.passes });
    expect(model!.noiseMm.A).toBe(passes[0]!.blades.A!.noiseMm);
    expect(model!.noiseFrom).toBe(passes[0]!.blades.A!.noiseFrom);
    // The pass in doubt had a say before.
    expect(benched.model!.noiseMm.A).not.toBe(model!.noiseMm.A);
  },
);

it('leaves a reed as it is fitted where no pass is in doubt', () => {
  const benched = scenarioReed('m-142');
  expect(settled(benched, faultsOf(benched))).toBe(benched);
});
