import { expect } from 'chai';
import { until } from './until.ts';
import { sendKeys } from '@web/test-runner-commands';
import '../../components/room/room-screen.ts';
import { moment } from '../../shared/moment.ts';
import { expectAccessible } from './accessible.ts';
import { emptyLibrary } from './library.ts';

async function room() {
  const { store, host } = await emptyLibrary();
  const el = document.createElement('bench-room');
  host.append(el);
  await until(() => el.shadowRoot?.querySelector('h1'));
  const text = () => el.shadowRoot!.textContent!.replace(/\s+/g, ' ');
  return { store, host, el, text };
}
async function type(root: ShadowRoot, name: string, value: string) {
  root.querySelector<HTMLInputElement>(`form [name=${name}]`)!.focus();
  await sendKeys({ type: value });
}

describe('bench-room', () => {
  it('takes the air as typed and warns on the day the weather turns', async () => {
    const { store, host, el, text } = await room();
    expect(text()).to.contain('No reading of the room. Type one.');
    await expectAccessible(el);
    const yesterday = moment(new Date(Date.now() - 24 * 3_600_000));
    await store.keep([{ kind: 'air', at: yesterday, temperatureC: 21, humidityPct: 63 }], 'air');
    await type(el.shadowRoot!, 'temperatureC', '21,5');
    await type(el.shadowRoot!, 'humidityPct', '38');
    await sendKeys({ press: 'Enter' });
    await until(() => store.snapshot.live.air.length === 2);
    await until(() => text().includes('Much drier than the day before.'));
    expect(text()).to.contain('Read and play today; leave the knife where it is.');
    expect(store.snapshot.live.air.find(({ humidityPct }) => humidityPct === 38)!.temperatureC).to.equal(
      21.5,
    );
    el.shadowRoot!.querySelector('details')!.open = true;
    const figures = el.shadowRoot!.querySelector('bench-air-figures')!;
    await until(() => figures.shadowRoot?.textContent?.includes('Wood Handbook'));
    await expectAccessible(el);
    host.remove();
  });

  it('walks the days and what happened on them by key, and has them in its table', async () => {
    const { store, host, el } = await room();
    const day = (ago: number) => moment(new Date(Date.now() - ago * 24 * 3_600_000));
    const air = [50, 52, 54, 56].map((humidityPct, k) => ({
      kind: 'air' as const,
      at: day(3 - k),
      humidityPct,
    }));
    const reedId = store.ledger.newId();
    const reed = {
      kind: 'reed' as const,
      id: reedId,
      label: 'Q-1',
      styleId: 'long-scrape',
      state: 'playing' as const,
      tags: [],
    };
    const trial = {
      kind: 'trial' as const,
      reedId,
      playedAt: day(1),
      afterPass: 0,
      pitchCents: [],
      words: 'two octaves',
    };
    await store.keep([...air, reed, trial], 'a few days');
    const chart = el.shadowRoot!.querySelector('bench-room-chart')!;
    const stop = (id: string) => chart.shadowRoot?.querySelector<SVGElement>(`[data-stop="${id}"]`);
    await until(() => stop('mark-0'));
    chart.shadowRoot!.querySelector<SVGElement>('[data-stop][tabindex="0"]')!.focus();
    await sendKeys({ press: 'ArrowLeft' });
    await sendKeys({ press: 'ArrowUp' });
    await until(() => chart.shadowRoot!.activeElement === stop('mark-0'));
    expect(stop('mark-0')!.getAttribute('aria-label'))
      .to.contain('two octaves')
      .and.to.contain('54\u00a0%\u00a0±5');
    expect(stop('mark-0')!.getAttribute('href')).to.contain(reedId);
    const card = chart.shadowRoot!.querySelector('.card')!;
    // One day after two others at nearly the same: 9.5 to 10 % by the table of the Wood Handbook.
    expect(card.textContent)
      .to.contain('Q-1')
      .and.to.match(/water in the cane 9\.\d/);
    const rows = [...chart.shadowRoot!.querySelectorAll('tbody tr')].map((row) =>
      row.textContent!.replace(/\s+/g, ' '),
    );
    expect(rows).to.have.length(36);
    expect(rows[1]).to.contain('54').and.to.contain('Q-1 tried: two octaves');
    expect(rows[4]).to.contain('–');
    await expectAccessible(el);
    host.remove();
  });

  it('marks what cannot be', async () => {
    const { store, host, el } = await room();
    await type(el.shadowRoot!, 'humidityPct', '120');
    await sendKeys({ press: 'Enter' });
    await until(() => el.shadowRoot!.querySelector('.problem'));
    expect(el.shadowRoot!.querySelector('.problem')!.textContent).to.contain('from 0 to 100');
    expect(el.shadowRoot!.querySelector('[name=humidityPct]')!.getAttribute('aria-invalid')).to.equal('true');
    expect(store.snapshot.live.air).to.have.length(0);
    host.remove();
  });

  it('compares here with a high dry town, and says what to prepare', async () => {
    const { store, host, el } = await room();
    await store.keep(
      [{ kind: 'air', at: store.ledger.now(), temperatureC: 21, humidityPct: 55, elevationM: 100 }],
      'air',
    );
    const travel = el.shadowRoot!.querySelector('bench-travel')!;
    travel.closest('details')!.open = true;
    await until(() => travel.shadowRoot!.querySelector<HTMLButtonElement>('button')?.disabled === false);
    await type(travel.shadowRoot!, 'temperatureC', '17');
    await type(travel.shadowRoot!, 'humidityPct', '25');
    await type(travel.shadowRoot!, 'elevationM', '1900');
    await sendKeys({ press: 'Enter' });
    await until(() => travel.shadowRoot!.querySelector('bench-air-figures'));
    const text = travel.shadowRoot!.textContent!.replace(/\s+/g, ' ');
    expect(text).to.contain('likely to close');
    expect(text).to.contain('leave the knife where it is');
    // 600 log2(290.15 / 294.15) = -11.85 cents.
    expect(text).to.contain('12 cents flat');
    await expectAccessible(el);
    host.remove();
  });
});
