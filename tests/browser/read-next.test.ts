import { expect } from 'chai';
import { fixture, html } from '@open-wc/testing-helpers';
import { sendKeys } from '@web/test-runner-commands';
import '../../components/read-next/read-next.ts';
import type { ReadNextPlaces } from '../../components/read-next/read-next.ts';
import type { Pass } from '../../shared/pass.ts';
import type { Reed } from '../../shared/reed.ts';
import { benchReed } from '../../src/answers/benched-reed.ts';
import { expectAccessible } from './accessible.ts';
import { inventedMm } from './blades.ts';

const readings = (['A', 'B'] as const).flatMap((blade) =>
  [1, 4, 7, 12, 18].flatMap((fromTipMm) =>
    [-0.4, 0.4].map((across) => ({
      blade,
      fromTipMm,
      across,
      thicknessMm: Math.round(100 * inventedMm(fromTipMm, across)) / 100,
      repeat: 0,
      flag: 'ok',
      role: 'station',
    })),
  ),
);
const pass = { index: 0, overallLengthMm: 70, threadMm: 47, remedies: [], readings } as unknown as Pass;
const benched = benchReed({ label: 'Invented', styleId: 'long-scrape' } as Reed, [pass]);

const shown = () =>
  fixture<ReadNextPlaces>(html`<bench-read-next .benched=${benched} .pass=${0}></bench-read-next>`);
const places = (el: ReadNextPlaces) =>
  [...el.shadowRoot!.querySelectorAll('li')].map((item) => item.innerText.replace(/\s+/g, ' '));

describe('bench-read-next', () => {
  it('is accessible', async () => {
    await expectAccessible(await shown());
  });

  it('names four places in words, each with the doubt that is left', async () => {
    const found = places(await shown());
    expect(found).to.have.length(4);
    for (const place of found) expect(place).to.match(/^[AB].* at \d+.mm, .* ±\d/);
    const doubts = found.map((place) => Number(place.split('±')[1]));
    expect([...doubts].sort((a, b) => b - a)).to.deep.equal(doubts);
  });

  it('asks for other places when another zone is chosen by keyboard', async () => {
    const el = await shown();
    const before = places(el);
    el.shadowRoot!.querySelector('select')!.focus();
    await sendKeys({ press: 't' });
    await el.updateComplete;
    expect(el.shadowRoot!.querySelector('select')!.value).to.equal('tip');
    expect(places(el)).not.to.deep.equal(before);
  });
});
