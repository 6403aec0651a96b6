import { expect } from 'chai';
import { sendKeys } from '@web/test-runner-commands';
import '../../components/history/history-screen.ts';
import type { Id } from '../../shared/ids.ts';
import { figuresOf } from '../../src/answers/record/reed-figures.ts';
import { writtenFigure } from '../../src/words/format.ts';
import { expectAccessible } from './accessible.ts';
import { inventedBench } from './invented-bench.ts';
import { emptyLibrary } from './library.ts';
import { until } from './until.ts';

describe('the life of a reed in pictures', () => {
  it('hangs every pass and what went between from the thread, with the record’s own figures', async () => {
    const { store, host, idOf } = await inventedBench();
    const reed = store.reed(idOf('M-142'))!;
    const el = document.createElement('bench-history');
    el.reedId = reed.id;
    host.append(el);
    const life = () => el.shadowRoot!.querySelector('bench-life-pictures')?.shadowRoot;
    await until(() => life()?.querySelectorAll('a.picture').length === 7);
    const pictures = [...life()!.querySelectorAll<HTMLAnchorElement>('a.picture')];
    expect(pictures.map((one) => one.ariaLabel)).to.deep.equal([
      'Pass 0',
      'Taken off before pass 1',
      'Pass 1',
      'Taken off before pass 2',
      'Pass 2',
      'Taken off before pass 3',
      'Pass 3',
    ]);
    expect(pictures[5]!.getAttribute('href')).to.match(/\/taken\/3\/2$/);
    // Clipped by 0.4 mm before pass 2: its tip stands lower, its thread at the same height.
    const box = (at: number) => pictures[at]!.querySelector('bench-blade-map')!.getBoundingClientRect();
    await until(() => box(0).height > 50 && box(4).height > 50);
    expect(box(4).bottom).to.be.closeTo(box(0).bottom, 0.6);
    const pxPerMm = box(0).width / (38 + 8 + 2 * 3.7 * 1.4 * 22) / (1 / 22);
    expect(box(0).height - box(4).height).to.be.closeTo(0.4 * pxPerMm, 0.6);
    const benched = await store.models.settled(reed, store.passesOf(reed.id));
    const blend = figuresOf({ benched, pass: 3 })
      .table('zones')
      .rows.find(({ name }) => name === 'blend')!.figures[0]!;
    const text = writtenFigure(blend, { unit: 'hundredths', decimal: 'point' }) as { value: string };
    const cell = life()!.querySelector('[data-figure="M-142, pass 3: zone.blend.mean"]')!;
    expect(cell.textContent).to.contain(text.value);
    expect(life()!.textContent).to.contain('clip 0.4\u00a0mm');
    expect(life()!.querySelector('.words')!.textContent).to.contain('two octaves');
    expect(el.shadowRoot!.querySelectorAll('.life bench-copy'), 'what is for paper has none').to.have.length(
      1,
    );
    await expectAccessible(el);
    pictures[0]!.focus();
    await sendKeys({ press: 'ArrowRight' });
    expect(life()!.activeElement).to.equal(pictures[1]);
    const body = () => el.shadowRoot!.querySelector<HTMLImageElement>('h1 img');
    await until(() => body()?.naturalWidth === 2 * 190);
    expect(body()!.naturalHeight).to.equal(2 * 150);
    host.remove();
  });

  it('says what will stand there while nothing is read', async () => {
    const { store, host } = await emptyLibrary();
    const id: Id = store.ledger.newId();
    await store.keep(
      [{ kind: 'reed', id, label: 'T-1', styleId: 'long-scrape', state: 'blank', tags: [] }],
      'a reed',
    );
    const el = document.createElement('bench-history');
    el.reedId = id;
    host.append(el);
    await until(() => /Nothing is read yet/.test(el.shadowRoot!.textContent!));
    expect(el.shadowRoot!.querySelector('bench-usual-reed a')!.getAttribute('href')).to.equal(
      `#/round/${id}`,
    );
    const usual = el.shadowRoot!.querySelector('bench-usual-reed')!.shadowRoot!;
    expect(usual.querySelectorAll('bench-blade-map')).to.have.length(2);
    expect(usual.textContent).to.contain('no reed of yours');
    await expectAccessible(el);
    host.remove();
  });
});
