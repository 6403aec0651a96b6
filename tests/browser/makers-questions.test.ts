import { expect } from 'chai';
import '../../components/bench/desk.ts';
import type { Question } from '../../components/frame/routes.ts';
import type { Pass } from '../../shared/pass.ts';
import { deepText } from './deep-text.ts';
import { inventedBench } from './invented-bench.ts';
import { until } from './until.ts';

/** What is written in an element, as it is read. */
const written = (root: Element) =>
  deepText(root).replaceAll('\u2011', '-').replace(/\s+/g, ' ').replaceAll(' .', '.');

/** The desk with one question about an invented reed, its passes changed as a slip of the maker's would. */
async function asked(
  label: string,
  route: { readonly question: Question; readonly pass?: number },
  slip?: (pass: Pass) => Partial<Pass>,
) {
  const { store, host, idOf } = await inventedBench();
  const reedId = idOf(label);
  if (slip)
    await store.keep(
      (await store.loadPasses(reedId)).map((pass) => ({ ...pass, ...slip(pass) })),
      'a slip',
    );
  const el = document.createElement('bench-desk');
  el.route = { at: 'bench', reedId, ...route };
  host.append(el);
  const says = async (words: RegExp) => {
    await until(() => words.test(written(el))).catch(() => expect(written(el)).to.match(words));
  };
  return { el, says, remove: () => host.remove() };
}

/** Pass 2 of M-142 was read after 0.4 mm had been clipped. */
const clipForgotten = ({ index, overallLengthMm }: Pass): Partial<Pass> =>
  index < 2 ? {} : { overallLengthMm: overallLengthMm! + 0.4, scrape: undefined };

const bReadFromTheOtherSide = ({ index, readings }: Pass): Partial<Pass> =>
  index < 3
    ? {}
    : {
        readings: readings.map((one) => (one.blade === 'B' ? { ...one, across: -one.across } : one)),
      };

// Answers that the invented scenario was made to have; its readings stand in tests/samples/scenario.
describe('the bench, asked what a maker would ask', () => {
  it('notices a clip that was not entered, and offers an amount whose doubt holds the 0.4 mm that were clipped', async () => {
    const { el, says, remove } = await asked('M-142', { question: 'taken', pass: 2 }, clipForgotten);
    await says(/A clip was not entered\. If you use this, it counts with 0\.\d mm clipped before it/);
    const [, mm, doubt] = /as if (0\.\d) ±(0\.\d) mm of the tip were gone/.exec(written(el))!;
    expect(Number(doubt)).to.be.at.most(0.2);
    expect(Math.abs(Number(mm) - 0.4)).to.be.at.most(Number(doubt) + 0.001);
    remove();
  });

  for (const question of ['taken', 'read'] as const)
    it(`asks whether a blade was mirrored, under "${question}"`, async () => {
      const { says, remove } = await asked('M-142', { question, pass: 3 }, bReadFromTheOtherSide);
      await says(/Was B read from the other side\?/);
      remove();
    });

  it('does not colour the +0.012 at 6 mm as growth', async () => {
    const { el, says, remove } = await asked('M-142', { question: 'taken', pass: 1 });
    await says(/Pass 1 took about 2 hundredths from the blend/);
    const pair = el
      .shadowRoot!.querySelector('bench-taken-off')!
      .shadowRoot!.querySelector('bench-reed-taken[show=map]')!
      .shadowRoot!.querySelector('bench-blade-pair')!;
    for (const grid of [pair.a!, pair.b!]) {
      const grown = Array.from(grid.valuesMm, (value, k) => value < -0.005 && grid.measurable![k]! > 0.5);
      expect(grown).to.not.include(true);
    }
    expect(written(el)).not.to.match(/thicker than it was|grown/);
    remove();
  });

  it('says to leave the right window of B alone and to move the blend', async () => {
    const { says, remove } = await asked('M-142', { question: 'next' });
    await says(/Cut on a steady rest.* Fine dust .*Local rules and licensed practitioners come first/);
    await says(
      /Next, and only this Blend, both blades, .*Not this B’s right window is 1 hundredth above its floor/,
    );
    remove();
  });

  it('says that light would not have shown a habit of the hand', async () => {
    const { says, remove } = await asked('K-117', { question: 'even' });
    await says(/right is thinner than the left, .*A habit of the hand.* Light would not have shown it/);
    remove();
  });

  it('takes edges thicker than the centre as they are on a short scrape, and the difference of its sides as the gouge', async () => {
    const there = await asked('S-026', { question: 'there' });
    // By hand between the readings of 27 at 4 mm and 32 at 5 mm: 4.6; the surface lies within half a tenth of that.
    await there.says(/The centre passes 30 hundredths at 4\.[67] mm/);
    expect(written(there.el)).not.to.match(/fault|\?|under the floor/);
    there.remove();
    const even = await asked('S-026', { question: 'even' });
    await even.says(/Its cane was gouged uneven: side 1 less side 2 read \+2\.0/);
    even.remove();
  });

  it('names the gouge first and the back second where a reed collapses', async () => {
    const { says, remove } = await asked('M-139', { question: 'next' });
    await says(
      /Side 1 is thicker than side 2 on both blades, .*: the gouge.* Spine and windows: 10 readings are under the floor/,
    );
    remove();
  });
});
