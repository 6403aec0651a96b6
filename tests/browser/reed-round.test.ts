import { expect } from 'chai';
import { waitUntil } from '@open-wc/testing-helpers';
import { sendKeys } from '@web/test-runner-commands';
import '../../components/round/reed-round.ts';
import type { ReedRound } from '../../components/round/reed-round.ts';
import { expectAccessible } from './accessible.ts';
import { emptyLibrary } from './library.ts';

async function benchWithReed() {
  const { store, host } = await emptyLibrary();
  await store.keep(
    [{ kind: 'reed', label: 'T-1', styleId: 'long', state: 'scraping', tags: [], invented: true }],
    'a reed',
  );
  const el = document.createElement('bench-reed-round');
  el.reedId = store.reeds[0]!.id;
  host.append(el);
  await el.updateComplete;
  return { store, host, el };
}

const inside = (el: ReedRound, selector: string) => el.shadowRoot!.querySelector<HTMLElement>(selector);
const round = (el: ReedRound) => inside(el, 'bench-round');

describe('bench-reed-round', () => {
  it('offers the plans, accessibly, with the keys on the likeliest', async () => {
    const { el, host } = await benchWithReed();
    await waitUntil(() => inside(el, 'bench-round-start'));
    await expectAccessible(inside(el, 'bench-round-start')!);
    expect(inside(el, 'bench-round-start')!.shadowRoot!.activeElement?.textContent).to.contain('Full map');
    host.remove();
  });

  it('needs one key to begin; keeps each reading; waits half done; becomes a pass', async () => {
    const { store, host, el } = await benchWithReed();
    await waitUntil(() => inside(el, 'bench-round-start')?.shadowRoot?.activeElement);
    const spot = [...inside(el, 'bench-round-start')!.shadowRoot!.querySelectorAll('button')].find((button) =>
      button.textContent?.includes('Spot'),
    )!;
    spot.focus();
    await sendKeys({ press: 'Enter' });
    await waitUntil(() => round(el)?.shadowRoot?.activeElement, 'the round has the keys');
    for (const key of ['1', '0', 'Enter', '1', '1', 'Enter']) await sendKeys({ press: key });
    const { id } = store.openRoundOf(el.reedId!)!;
    await waitUntil(async () => (await store.ledger.actsOf(id)).length === 2);

    el.remove();
    const again = document.createElement('bench-reed-round');
    again.reedId = el.reedId!;
    host.append(again);
    await waitUntil(() => round(again)?.shadowRoot?.querySelector('.done')?.textContent === '2 of 4');
    for (const key of ['1', '2', 'Enter', '1', '3', 'Enter']) await sendKeys({ press: key });
    await waitUntil(() => round(again)?.shadowRoot?.querySelector('.main-button:enabled'));
    round(again)!.shadowRoot!.querySelector<HTMLElement>('.main-button')!.click();
    await waitUntil(() => store.passesOf(el.reedId!).length === 1);
    const [pass] = store.passesOf(el.reedId!);
    expect(pass!.readings.map(({ thicknessMm }) => thicknessMm)).to.deep.equal([0.1, 0.11, 0.12, 0.13]);
    expect(store.openRoundOf(el.reedId!)).to.equal(undefined);
    host.remove();
  });
});
