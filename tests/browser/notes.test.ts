import { expect } from 'chai';
import { until } from './until.ts';
import '../../components/bench/notes.ts';
import type { Id } from '../../shared/ids.ts';
import { expectAccessible } from './accessible.ts';
import { emptyLibrary } from './library.ts';

/** A reed with one pass, a lot with a piece, and a shape. Invented. */
async function notes() {
  const { store, host } = await emptyLibrary();
  const [reedId, lotId, pieceId, shapeId] = [0, 1, 2, 3].map(() => store.ledger.newId()) as [Id, Id, Id, Id];
  await store.keep(
    [
      { kind: 'reed', id: reedId, label: 'Q-1', styleId: 'long-scrape', state: 'scraping', tags: [] },
      { kind: 'pass', reedId, index: 0, remedies: [], readings: [] },
      { kind: 'lot', id: lotId, code: 'Q' },
      { kind: 'piece', id: pieceId, lotId, number: 1, readings: [], fate: 'kept' },
      {
        kind: 'shape',
        id: shapeId,
        name: 'narrow',
        widths: [
          { fromFoldMm: 0, widthMm: 7 },
          { fromFoldMm: 26, widthMm: 4.4 },
        ],
      },
    ],
    'a reed',
  );
  const el = document.createElement('bench-notes');
  const show = () => {
    el.reed = store.reed(reedId);
    el.pass = store.passesOf(reedId)[0];
  };
  show();
  store.addEventListener('bench-library-change', show);
  host.append(el);
  const root = (name: 'bench-trials' | 'bench-tying') => el.shadowRoot?.querySelector(name)?.shadowRoot;
  await until(
    () => root('bench-trials')?.querySelector('form') && root('bench-tying')?.querySelector('form'),
  );
  return { store, host, el, reedId, shapeId, trials: root('bench-trials')!, tying: root('bench-tying')! };
}
const write = (root: ShadowRoot, values: Readonly<Record<string, string>>) => {
  for (const [name, value] of Object.entries(values)) {
    const field = root.querySelector<HTMLInputElement>(`[name=${name}]`)!;
    field.value = value;
    field.dispatchEvent(new Event('change', { bubbles: true }));
  }
};
const submit = (root: ShadowRoot) => root.querySelector('form')!.requestSubmit();

describe('bench-notes', () => {
  it('keeps a trial with its crow, pitches and scales, tied to its pass', async () => {
    const { store, host, el, reedId, trials } = await notes();
    await expectAccessible(el);
    write(trials, {
      lowestNote: 'C5',
      cents: '−5',
      octaves: '2',
      pitch: 'A4 +2, D5 -3,5',
      response: '4',
      openingMm: '0,95',
      temperatureC: '21',
      words: 'speaks',
    });
    submit(trials);
    await until(() => store.trialsOf(reedId).length === 1);
    const [trial] = store.trialsOf(reedId);
    expect(trial).to.deep.include({
      afterPass: 0,
      response: 4,
      openingMm: 0.95,
      temperatureC: 21,
      words: 'speaks',
    });
    expect(trial!.crow).to.deep.include({ lowestNote: 'C5', cents: -5, octaves: 2 });
    expect(trial!.pitchCents).to.deep.equal([
      { note: 'A4', cents: 2 },
      { note: 'D5', cents: -3.5 },
    ]);
    const list = trials.querySelector('bench-trial-list')!;
    await until(() => list.shadowRoot!.textContent!.includes('C5 −5 cents'));
    await expectAccessible(el);
    host.remove();
  });

  it('says which field cannot be taken, and keeps nothing', async () => {
    const { store, host, reedId, trials } = await notes();
    write(trials, { openingMm: '95' });
    submit(trials);
    await until(() => trials.querySelector('.problem'));
    expect(trials.querySelector('.problem')!.textContent).to.contain('Opening, mm: 95 cannot be');
    write(trials, { openingMm: '', pitch: 'A4 plus two' });
    submit(trials);
    await until(() => trials.querySelector('.problem')?.textContent?.includes('A4 plus two'));
    expect(store.trialsOf(reedId)).to.have.length(0);
    host.remove();
  });

  it('fills the crow in from what was heard', async () => {
    const { store, host, reedId, trials } = await notes();
    const { CrowHeardEvent } = await import('../../components/crow/crow-listener.ts');
    const figure = (value: number) => ({ value, u: 0.1 });
    trials.querySelector('bench-crow-listener')!.dispatchEvent(
      new CrowHeardEvent({
        kind: 'crow',
        hz: 525.63,
        uCents: 0.4,
        wanderCents: 2.34,
        driftCentsPerS: figure(0),
        octaveBalanceDb: figure(-3.21),
        seconds: 3,
      }),
    );
    submit(trials);
    await until(() => store.trialsOf(reedId).length === 1);
    expect(store.trialsOf(reedId)[0]!.crow).to.deep.include({
      lowestNote: 'C5',
      cents: 0,
      from: 'microphone',
      hz: 525.6,
      wanderCents: 2.3,
      octaveBalanceDb: -3.2,
    });
    host.remove();
  });

  it('gives the blade its outline from the shape and the tied length, undoable as one', async () => {
    const { store, host, el, reedId, shapeId, tying } = await notes();
    // The label Q-1 begins with the letters of lot Q, which is offered.
    expect(tying.querySelector<HTMLSelectElement>('[name=lot]')!.value).to.equal(
      store.snapshot.live.lot[0]!.id,
    );
    await until(() => tying.querySelectorAll('[name=piece] option').length === 2);
    write(tying, {
      piece: store.snapshot.live.piece[0]!.id,
      shape: shapeId,
      overallMm: '72,5',
      threadMm: '47.5',
      lengthMm: '47',
      leaks: 'tight',
    });
    submit(tying);
    await until(() => store.reed(reedId)!.planform !== undefined);
    expect(store.reed(reedId)!.planform!.widths.at(-1)).to.deep.equal({ fromCorkMm: 72.5, widthMm: 7 });
    expect(store.reed(reedId)!.tie).to.deep.include({ overallMm: 72.5, threadMm: 47.5, leaks: 'tight' });
    expect(store.snapshot.live.piece[0]!.fate).to.equal('reed');
    await until(() => tying.textContent!.includes('Blade 25.0'));
    expect(tying.textContent).to.contain('past the top of the staple');
    await expectAccessible(el);
    await store.undo();
    expect(store.reed(reedId)!.planform).to.equal(undefined);
    expect(store.snapshot.live.piece[0]!.fate).to.equal('kept');
    host.remove();
  });

  it('keeps the outline of the tying when its shape is corrected, and says so', async () => {
    const { store, host, el, reedId, shapeId, tying } = await notes();
    write(tying, { shape: shapeId, overallMm: '72.5', threadMm: '47.5' });
    submit(tying);
    await until(() => store.reed(reedId)!.planform !== undefined);
    const outline = store.reed(reedId)!.planform!;
    expect(tying.textContent).to.not.contain('was changed since');
    const [shape] = store.snapshot.live.shape;
    const widths = shape!.widths.map((width, i) => (i === 0 ? { ...width, widthMm: 7.06 } : width));
    await store.keep([{ ...shape!, widths }], 'a correction');
    await until(() => tying.textContent!.includes('was changed since this reed was tied'));
    expect(store.reed(reedId)!.planform).to.deep.equal(outline);
    await expectAccessible(el);
    [...tying.querySelectorAll('button')].find(({ textContent }) => /corrected/.test(textContent!))!.click();
    await until(() => store.reed(reedId)!.planform!.widths.at(-1)!.widthMm === 7.06);
    await until(() => !tying.textContent!.includes('was changed since'));
    host.remove();
  });

  it('stretches the zones to the lengths of the reed, and takes them in their order only', async () => {
    const { store, host, el, reedId } = await notes();
    const lengths = () => el.shadowRoot!.querySelector('bench-own-lengths')!.shadowRoot!;
    await until(() => lengths().querySelector('form'));
    write(lengths(), { tipMm: '4,5', heartEndMm: '3', scrapeEndMm: '20' });
    submit(lengths());
    await until(() => /one after the other/.test(lengths().textContent!));
    expect(store.reed(reedId)!.lengths).to.equal(undefined);
    write(lengths(), { heartEndMm: '9.5' });
    submit(lengths());
    await until(() => store.reed(reedId)!.lengths);
    expect(store.reed(reedId)!.lengths).to.deep.equal({ tipMm: 4.5, heartEndMm: 9.5, scrapeEndMm: 20 });
    await expectAccessible(el);
    write(lengths(), { tipMm: '', heartEndMm: '', scrapeEndMm: '' });
    submit(lengths());
    await until(() => store.reed(reedId)!.lengths === undefined);
    host.remove();
  });

  it('puts a pass into the bin, and the reed with all that belongs to it', async () => {
    const { store, el, reedId } = await notes();
    const press = (words: string) =>
      [...el.shadowRoot!.querySelectorAll('button')]
        .find((one) => one.textContent?.replace(/\s+/g, ' ').trim() === words)!
        .click();
    await store.keep(
      [{ kind: 'trial', reedId, afterPass: 0, playedAt: store.ledger.now(), words: 'free', pitchCents: [] }],
      'a trial',
    );
    press('Put pass 0 into the bin');
    await until(() => store.passesOf(reedId).length === 0);
    expect(store.undoable.undo).to.equal('pass 0 of Q-1 into the bin');
    await store.undo();
    await el.updateComplete;
    press('Put into the bin');
    await until(() => store.reeds.length === 0);
    expect(store.snapshot.live.pass.length + store.snapshot.live.trial.length).to.equal(0);
    expect(store.snapshot.live.lot).to.have.length(1);
    await store.undo();
    expect([store.passesOf(reedId).length, store.trialsOf(reedId).length]).to.deep.equal([1, 1]);
  });
});
