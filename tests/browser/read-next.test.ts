import { expect } from 'chai';
import { fixture, html } from '@open-wc/testing-helpers';
import { sendKeys } from '@web/test-runner-commands';
import '../../components/read-next/read-next.ts';
import type { ReadNextPlaces } from '../../components/read-next/read-next.ts';
import type { Pass } from '../../shared/pass.ts';
import type { Reed } from '../../shared/reed.ts';
import { benchReed } from '../../src/answers/fitted-reed.ts';
import { expectAccessible } from './accessible.ts';
import { inventedMm } from './blades.ts';
import '../../components/bench/desk.ts';
import { emptyLibrary } from './library.ts';
import { until } from './until.ts';

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

describe('a round of the places worth reading', () => {
  it('asks for exactly those, and is not offered while another waits', async () => {
    const { store, host } = await emptyLibrary();
    const reedId = store.ledger.newId();
    const own = { ...pass, kind: 'pass' as const, reedId };
    const reed = { kind: 'reed' as const, id: reedId, label: 'Q-1', styleId: 'long-scrape', tags: [] };
    await store.keep([{ ...reed, state: 'scraping' as const }, own], 'an invented reed');
    const desk = document.createElement('bench-desk');
    desk.route = { at: 'bench', question: 'there', reedId };
    host.append(desk);
    const there = () => desk.shadowRoot?.querySelector('bench-there-now')?.shadowRoot;
    await until(() => there()?.querySelector('details'));
    const fold = [...there()!.querySelectorAll('details')].find(({ innerText }) =>
      innerText.includes('Where to read next'),
    )!;
    fold.open = true;
    const next = () => there()!.querySelector('bench-read-next');
    await until(() => next()?.shadowRoot?.querySelector('button'));
    const asked = places(next()!).map((words) => /^(.).* at (\d+)/.exec(words)!.slice(1, 3).join(' '));
    next()!.shadowRoot!.querySelector('button')!.click();
    await until(() => store.openRoundOf(reedId) !== undefined);
    const { stations, passIndex, plan } = store.openRoundOf(reedId)!;
    expect(plan).to.match(/^To know the /);
    expect(passIndex).to.equal(1);
    const read = stations.map(({ blade, fromTipMm }) => `${blade} ${fromTipMm}`);
    expect([...new Set(read)].sort()).to.deep.equal([...new Set(asked)].sort());
    await until(() => location.hash === `#/round/${reedId}`);
    await until(() => next()?.shadowRoot && !next()!.shadowRoot!.querySelector('button'));
    location.hash = '';
    host.remove();
  });
});
