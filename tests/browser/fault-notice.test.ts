import { expect } from 'chai';
import { fixture, html } from '@open-wc/testing-helpers';
import { sendKeys } from '@web/test-runner-commands';
import '../../components/faults/fault-notice.ts';
import type { FaultNotice } from '../../components/faults/fault-notice.ts';
import type { PassFaults } from '../../src/faults/fault.ts';
import '../../components/bench/desk.ts';
import { generatedReed } from '../generator/generated-reed.ts';
import { withFault } from '../generator/planted-faults.ts';
import { expectAccessible } from './accessible.ts';
import { emptyLibrary } from './library.ts';
import { until } from './until.ts';

const FOUND: PassFaults = {
  index: 2,
  faults: [
    {
      kind: 'clip',
      blade: 'both',
      grade: 'named',
      evidence: 9,
      valueMm: 0.4,
      orElse: ['shifted'],
      remedy: { kind: 'clip', clipMm: 0.4 },
    },
    {
      kind: 'increase',
      blade: 'A',
      grade: 'named',
      evidence: 8,
      valueMm: 0.02,
      place: { fromTipMm: 5, across: 0 },
    },
  ],
  readAgain: [{ blade: 'B', fromTipMm: 10, across: 0.4, readMm: 0.35, expectedMm: 0.404 }],
};

const notice = (found: PassFaults, remedies: FaultNotice['remedies'] = []) =>
  fixture<FaultNotice>(html`<bench-fault-notice .found=${found} .remedies=${remedies}></bench-fault-notice>`);
const text = (el: FaultNotice) => el.shadowRoot!.textContent!.replace(/\s+/g, ' ');
const button = (el: FaultNotice, words: string) =>
  [...el.shadowRoot!.querySelectorAll('button')].find(({ ariaLabel }) => ariaLabel?.startsWith(words))!;

describe('bench-fault-notice', () => {
  it('is accessible, and says what is wrong, what would put it right and what to read again', async () => {
    const el = await notice(FOUND);
    await expectAccessible(el);
    expect(text(el)).to.contain('The slopes read as if 0.4 mm of the tip were gone. Was a clip not entered?');
    expect(text(el)).to.contain('it counts with 0.4 mm clipped before it');
    expect(text(el)).to.contain('cane does not grow');
    expect(text(el)).to.contain('reads 35 where 40 was expected: a dig, or a slip?');
    expect(button(el, 'Use this: ').getBoundingClientRect().height).to.be.at.least(44);
  });

  it('offers the remedy as one act by keyboard, and changes nothing itself', async () => {
    const el = await notice(FOUND);
    const taken: unknown[] = [];
    el.addEventListener('bench-fault-remedy', ({ remedy }) => taken.push(remedy));
    button(el, 'Use this: ').focus();
    await sendKeys({ press: 'Enter' });
    expect(taken).to.deep.equal([{ kind: 'clip', clipMm: 0.4 }]);
    expect(el.remedies).to.deep.equal([]);
  });

  it('leaves a fault be when it is as read', async () => {
    const el = await notice(FOUND);
    button(el, 'As read: The slopes').click();
    await el.updateComplete;
    expect(text(el)).not.to.contain('The slopes');
    expect(text(el)).to.contain('cane does not grow');
  });

  it('names a remedy that was taken, and lets it be taken back', async () => {
    const el = await notice({ index: 2, faults: [], readAgain: [] }, [{ kind: 'swapped' }]);
    expect(text(el)).to.contain('Put right in this pass: A counts as B, and B as A.');
    const back: number[] = [];
    el.addEventListener('bench-fault-take-back', ({ at }) => back.push(at));
    button(el, 'As read: without').click();
    expect(back).to.deep.equal([0]);
  });

  it('is nothing where nothing is found', async () => {
    const el = await notice({ index: 2, faults: [], readAgain: [] });
    expect(el.shadowRoot!.childElementCount).to.equal(0);
  });
});

describe('a fault on the bench', () => {
  it('is found in the shown pass, put right by the maker alone, and taken back', async () => {
    const { store, host } = await emptyLibrary();
    const reedId = store.ledger.newId();
    await store.keep(
      [
        { kind: 'reed', id: reedId, label: 'Q-1', styleId: 'long-scrape', state: 'scraping', tags: [] },
        ...withFault(generatedReed(100), 'zero').map(({ index, overallLengthMm, readings }) => ({
          kind: 'pass' as const,
          reedId,
          index,
          overallLengthMm,
          remedies: [],
          readings: readings.map(({ blade, fromTipMm, across, thicknessMm }) => ({
            blade,
            fromTipMm,
            across,
            thicknessMm,
            repeat: 0,
            flag: 'ok' as const,
            role: 'station' as const,
          })),
        })),
      ],
      'an invented reed',
    );
    const desk = document.createElement('bench-desk');
    desk.route = { at: 'bench', question: 'there', reedId };
    host.append(desk);
    const shown = () => desk.shadowRoot?.querySelector('bench-fault-notice');
    const words = () => (shown()?.shadowRoot ? text(shown()!) : '');
    const last = () => store.passesOf(reedId).at(-1)!;

    await until(() => words().includes('The gauge’s zero had moved'));
    expect(last().remedies).to.deep.equal([]);
    button(shown()!, 'Use this: ').click();
    await until(() => last().remedies.length === 1 && words().includes('Put right in this pass'));
    expect(last().remedies[0]).to.include({ kind: 'zero', blade: 'both' });
    await until(() => !words().includes('zero had moved'));
    button(shown()!, 'As read: without').click();
    await until(() => last().remedies.length === 0 && words().includes('The gauge’s zero had moved'));
    host.remove();
  });
});
