import { expect } from 'chai';
import { sendKeys, setViewport } from '@web/test-runner-commands';
import { until } from './until.ts';
import '../../components/notes/notes.ts';
import type { NoteField } from '../../components/notes/note-field.ts';
import type { Notes } from '../../components/notes/notes.ts';
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
  await until(() => el.shadowRoot?.querySelector('bench-trial-form')?.shadowRoot?.querySelector('form'));
  return { store, host, el, reedId, shapeId };
}

const ACTS = {
  Tied: 'bench-tied-form',
  Played: 'bench-trial-form',
  'Scraped or adjusted': 'bench-change-form',
  Retired: 'bench-retire-form',
  'The reed': 'bench-reed-form',
} as const;

const button = (root: ShadowRoot, words: string | RegExp) =>
  [...root.querySelectorAll('button')].find(({ textContent }) => {
    const text = textContent?.replace(/\s+/g, ' ').trim() ?? '';
    return typeof words === 'string' ? text.startsWith(words) : words.test(text);
  })!;

/** Opens an act's form. */
async function act(el: Notes, name: keyof typeof ACTS): Promise<ShadowRoot> {
  button(el.shadowRoot!, name).click();
  const form = () => el.shadowRoot!.querySelector(ACTS[name])?.shadowRoot;
  await until(() => form()?.querySelector('h2'));
  return form()!;
}

/** Writes fields as a hand would, and leaves each. */
function write(root: ShadowRoot, values: Readonly<Record<string, string>>) {
  for (const [name, value] of Object.entries(values)) {
    const steps = [...root.querySelectorAll<HTMLInputElement>(`input[type=radio][name="${name}"]`)];
    const field = root.querySelector<HTMLInputElement | NoteField>(`[name="${name}"]`)!;
    if (steps.length > 0) steps.find((one) => one.value === value)!.click();
    else {
      const inner =
        field.localName === 'bench-note-field' ? field.shadowRoot!.querySelector('input')! : field;
      inner.value = value;
      inner.dispatchEvent(new Event('change', { bubbles: true }));
    }
  }
}

/** Fields in sight: a row of steps is one. */
function fieldsInSight(root: ParentNode): Set<string> {
  const own = [...root.querySelectorAll<HTMLInputElement>('input, select, textarea')].filter((one) =>
    one.checkVisibility(),
  );
  const inside = [...root.querySelectorAll('*')].flatMap(({ shadowRoot, localName, id }) =>
    shadowRoot ? [...fieldsInSight(shadowRoot)].map((name) => `${localName} ${id} ${name}`) : [],
  );
  return new Set([...own.map(({ name, ariaLabel }) => name || (ariaLabel ?? '')), ...inside]);
}

describe('bench-notes', () => {
  it('keeps a trial as it is written: peep, crow, softest attacks, what fifteen minutes did', async () => {
    const { store, host, el, reedId } = await notes();
    const form = await act(el, 'Played');
    await expectAccessible(el);
    write(form, { peep: 'C6 −10', crow: 'c5 -5', lowD: '3', lowBFlat: '2', middleG: '4' });
    write(form, { after15Cents: '−6', verdict: 'not yet', words: 'speaks' });
    await until(() => store.trialsOf(reedId)[0]?.words === 'speaks');
    button(form, 'How it feels').click();
    await until(() => form.querySelector('[name=rattle]'));
    write(form, { octaves: '2', rattle: 'some', stability: '4' });
    button(form, 'Pitch and opening').click();
    await until(() => form.querySelector('[name=pitch]'));
    write(form, { pitch: 'A4 +2, D5 -3,5', openingMm: '0,95', steadiness: '5' });
    await until(() => store.trialsOf(reedId)[0]?.peep?.steadiness === 5);
    expect(store.trialsOf(reedId)).to.have.length(1);
    const [trial] = store.trialsOf(reedId);
    expect(trial).to.deep.include({ afterPass: 0, lowD: 3, lowBFlat: 2, middleG: 4, after15Cents: -6 });
    expect(trial).to.deep.include({ openingMm: 0.95, stability: 4, verdict: 'not yet', words: 'speaks' });
    expect(trial!.peep).to.deep.equal({ note: 'C6', cents: -10, steadiness: 5 });
    expect(trial!.crow).to.deep.equal({ lowestNote: 'C5', cents: -5, octaves: 2, rattle: 'some' });
    expect(trial!.pitchCents).to.deep.equal([
      { note: 'A4', cents: 2 },
      { note: 'D5', cents: -3.5 },
    ]);
    const earlier = el.shadowRoot!.querySelector('bench-earlier')!.shadowRoot!;
    await until(() => /Peep C6 −10 cents, steadiness 5/.test(earlier.textContent!));
    expect(earlier.textContent).to.contain('Low D 3, low B flat 2, middle G 4');
    await expectAccessible(el);
    host.remove();
  });

  it('takes steps by digits and Delete, and cents by arrows', async () => {
    const { store, host, el, reedId } = await notes();
    const form = await act(el, 'Played');
    form.querySelector<HTMLInputElement>('[name=lowD][value=""]')!.focus();
    await sendKeys({ press: '4' });
    await until(() => store.trialsOf(reedId)[0]?.lowD === 4);
    await sendKeys({ press: 'Delete' });
    await until(() => store.trialsOf(reedId)[0]?.lowD === undefined);
    form.querySelector<NoteField>('[name=peep]')!.focus();
    await sendKeys({ down: 'Shift' });
    await sendKeys({ press: 'ArrowDown' });
    await sendKeys({ up: 'Shift' });
    await sendKeys({ press: 'ArrowDown' });
    await sendKeys({ press: 'PageUp' });
    await sendKeys({ press: 'Tab' });
    await until(() => store.trialsOf(reedId)[0]?.peep);
    // A half tone over C6, six cents flat.
    expect(store.trialsOf(reedId)[0]!.peep).to.deep.equal({ note: 'C#6', cents: -6 });
    host.remove();
  });

  it('keeps a long text that is still being written when the form goes away', async () => {
    const { store, host, el, reedId } = await notes();
    const form = await act(el, 'Played');
    form.querySelector<HTMLTextAreaElement>('[name=words]')!.focus();
    await sendKeys({ type: 'two octa' });
    button(el.shadowRoot!, 'Tied').click();
    await until(() => store.trialsOf(reedId)[0]?.words === 'two octa');
    host.remove();
  });

  it('says which field cannot be taken, and keeps what was', async () => {
    const { store, host, el, reedId } = await notes();
    const form = await act(el, 'Played');
    button(form, 'Pitch and opening').click();
    await until(() => form.querySelector('[name=openingMm]'));
    write(form, { openingMm: '95' });
    await until(() => form.querySelector('.problem'));
    expect(form.querySelector('.problem')!.textContent).to.contain('Opening, mm: 95 cannot be');
    expect(form.querySelector('[aria-invalid]')!.getAttribute('name')).to.equal('openingMm');
    write(form, { openingMm: '', pitch: 'A4 plus two' });
    await until(() => form.querySelector('.problem')?.textContent?.includes('A4 plus two'));
    expect(store.trialsOf(reedId)).to.have.length(0);
    host.remove();
  });

  it('opens an earlier trial to be mended or put into the bin', async () => {
    const { store, host, el, reedId } = await notes();
    await store.keep(
      [
        {
          kind: 'trial',
          reedId,
          afterPass: 0,
          playedAt: '2026-11-20T10:00:00.000+01:00',
          words: 'flat',
          response: 2,
          crow: { lowestNote: 'B', cents: -30 },
          pitchCents: [],
        },
      ],
      'a trial',
    );
    const earlier = el.shadowRoot!.querySelector('bench-earlier')!.shadowRoot!;
    await until(() => button(earlier, /Played/));
    button(earlier, /Played/).click();
    const form = await act(el, 'Played');
    await until(() => form.querySelector<HTMLTextAreaElement>('[name=words]')!.value === 'flat');
    write(form, { words: 'flat and wild' });
    await until(() => store.trialsOf(reedId)[0]!.words === 'flat and wild');
    expect(store.trialsOf(reedId)[0]).to.deep.include({
      response: 2,
      playedAt: '2026-11-20T10:00:00.000+01:00',
    });
    expect(store.trialsOf(reedId)[0]!.crow).to.deep.equal({ lowestNote: 'B', cents: -30 });
    button(form, 'Put this trial into the bin').click();
    await until(() => store.trialsOf(reedId).length === 0);
    host.remove();
  });

  it('mends a playing, and puts it into the bin', async () => {
    const { store, host, el, reedId } = await notes();
    const use = { kind: 'use' as const, reedId, at: store.ledger.now(), minutes: 40 };
    await store.keep([{ ...use, service: 'rehearsal', felt: 3 }], 'a playing');
    const uses = () => store.snapshot.live.use.filter((one) => one.reedId === reedId);
    const earlier = () => el.shadowRoot!.querySelector('bench-earlier')!.shadowRoot!;
    await until(() => earlier().querySelector('.use button'));
    earlier().querySelector<HTMLElement>('.use button')!.click();
    await until(() => el.shadowRoot!.querySelector('bench-played-form')?.shadowRoot?.querySelector('form'));
    const form = el.shadowRoot!.querySelector('bench-played-form')!.shadowRoot!.querySelector('form')!;
    expect(new FormData(form).get('service')).to.equal('rehearsal');
    form.querySelector<HTMLInputElement>('[name=minutes]')!.value = '90';
    form.requestSubmit();
    await until(() => uses()[0]?.minutes === 90);
    expect(uses()).to.have.length(1);
    await expectAccessible(el);
    [...form.querySelectorAll('button')].find((one) => one.textContent === 'Put it into the bin')!.click();
    await until(() => uses().length === 0);
    expect(store.snapshot.deleted.map(({ kind }) => kind)).to.deep.equal(['use']);
    await until(() => !el.shadowRoot!.querySelector('bench-played-form'));
    host.remove();
  });

  it('never has more than eight fields in sight, at 390 without sideways scrolling', async () => {
    const { host, el } = await notes();
    await setViewport({ width: 390, height: 844 });
    for (const name of Object.keys(ACTS) as (keyof typeof ACTS)[]) {
      const form = await act(el, name);
      const pages = [...form.querySelectorAll<HTMLElement>('.pages button')];
      for (const page of pages.length > 0 ? pages : [undefined]) {
        page?.click();
        await el.updateComplete;
        await new Promise((resolve) => requestAnimationFrame(resolve));
        const where = `${name}, ${page?.textContent}`;
        expect(fieldsInSight(el.shadowRoot!).size, where).to.be.within(
          name === 'Scraped or adjusted' ? 0 : 1,
          8,
        );
        expect(document.documentElement.scrollWidth, where).to.be.at.most(390);
      }
    }
    await setViewport({ width: 1280, height: 800 });
    host.remove();
  });

  it('mends what was done before a pass and how it was read', async () => {
    const { store, host, el, reedId } = await notes();
    const pass = () => store.passesOf(reedId)[0]!;
    const form = await act(el, 'Scraped or adjusted');
    await expectAccessible(el);
    write(form, { clipMm: '0,4', overallLengthMm: '70.5', knife: 'bevelled', accident: 'dig', note: 'wet' });
    await until(() => pass().note === 'wet' && pass().scrape?.accident === 'dig');
    expect(pass()).to.deep.include({ clipMm: 0.4, overallLengthMm: 70.5 });
    expect(pass().scrape).to.deep.equal({ places: [], knife: 'bevelled', accident: 'dig' });
    write(form, { clipMm: '' });
    await until(() => pass().clipMm === undefined);
    button(form, 'When it was read').click();
    await until(() => form.querySelector('[name=takenAt]'));
    write(form, { takenAt: '2026-11-27T09:30' });
    await until(() => pass().takenAt);
    expect(new Date(pass().takenAt!).getTime()).to.equal(new Date('2026-11-27T09:30').getTime());
    button(form, 'Where the knife went').click();
    await until(() => form.querySelector('bench-scrape-places'));
    button(form.querySelector('bench-scrape-places')!.shadowRoot!, 'Tip').click();
    await until(() => pass().scrape?.places.length === 1);
    expect(pass().scrape).to.deep.include({ knife: 'bevelled', accident: 'dig' });
    expect(pass().readingCount).to.equal(0);
    host.remove();
  });

  it('gives the reed another label, never one that is taken', async () => {
    const { store, host, el, reedId } = await notes();
    await store.keep(
      [{ kind: 'reed', label: 'Q-2', styleId: 'long-scrape', state: 'blank', tags: [] }],
      'another',
    );
    const form = await act(el, 'The reed');
    write(form, { label: 'Q-2' });
    await until(() => /There is a Q-2 already/.test(form.textContent!));
    expect(store.reed(reedId)!.label).to.equal('Q-1');
    write(form, { label: 'Q-11' });
    await until(() => store.reed(reedId)!.label === 'Q-11');
    await expectAccessible(el);
    host.remove();
  });

  it('retires by an act of its own, mends the cause as it is written, and brings back', async () => {
    const { store, host, el, reedId } = await notes();
    const form = await act(el, 'Retired');
    await expectAccessible(el);
    button(form, 'Retire').click();
    await until(() => /Choose what ended it/.test(form.textContent!));
    write(form, { cause: 'chipped' });
    expect(store.reed(reedId)!.state).to.equal('scraping');
    button(form, 'Retire').click();
    await until(() => store.reed(reedId)!.state === 'retired');
    write(form, { cause: 'cracked', on: '2026-11-20', lesson: 'clip later' });
    await until(() => store.reed(reedId)!.retirement?.lesson === 'clip later');
    expect(store.reed(reedId)!.retirement).to.deep.equal({
      cause: 'cracked',
      on: '2026-11-20',
      lesson: 'clip later',
    });
    button(form, 'Bring back').click();
    await until(() => store.reed(reedId)!.retirement === undefined);
    host.remove();
  });

  it('fills the crow in from what was heard', async () => {
    const { store, host, el, reedId } = await notes();
    const form = await act(el, 'Played');
    const { CrowHeardEvent } = await import('../../components/crow/crow-listener.ts');
    const figure = (value: number) => ({ value, u: 0.1 });
    form.querySelector('bench-crow-listener')!.dispatchEvent(
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

  it('gives the blade its outline from the shape and the tied length', async () => {
    const { store, host, el, reedId, shapeId } = await notes();
    const tying = await act(el, 'Tied');
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
    await until(() => store.reed(reedId)!.tie?.leaks === 'tight');
    expect(store.reed(reedId)!.planform!.widths.at(-1)).to.deep.equal({ fromCorkMm: 72.5, widthMm: 7 });
    expect(store.reed(reedId)!.tie).to.deep.include({ overallMm: 72.5, threadMm: 47.5, leaks: 'tight' });
    expect(store.snapshot.live.piece[0]!.fate).to.equal('reed');
    await until(() => tying.textContent!.includes('Blade 25.0'));
    expect(tying.textContent).to.contain('past the top of the staple');
    await expectAccessible(el);
    host.remove();
  });

  it('keeps the outline of the tying when its shape is corrected, and says so', async () => {
    const { store, host, el, reedId, shapeId } = await notes();
    const tying = await act(el, 'Tied');
    write(tying, { shape: shapeId, overallMm: '72.5', threadMm: '47.5' });
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
    await act(el, 'The reed');
    const lengths = () =>
      el.shadowRoot!.querySelector('bench-reed-form')!.shadowRoot!.querySelector('bench-own-lengths')!
        .shadowRoot!;
    await until(() => lengths().querySelector('form'));
    write(lengths(), { tipMm: '4,5', heartEndMm: '3', scrapeEndMm: '20' });
    await until(() => /one after the other/.test(lengths().textContent!));
    expect(store.reed(reedId)!.lengths).to.equal(undefined);
    write(lengths(), { heartEndMm: '9.5' });
    await until(() => store.reed(reedId)!.lengths);
    expect(store.reed(reedId)!.lengths).to.deep.equal({ tipMm: 4.5, heartEndMm: 9.5, scrapeEndMm: 20 });
    await expectAccessible(el);
    write(lengths(), { tipMm: '', heartEndMm: '', scrapeEndMm: '' });
    await until(() => store.reed(reedId)!.lengths === undefined);
    host.remove();
  });

  it('puts a pass into the bin, and the reed with all that belongs to it', async () => {
    const { store, el, reedId } = await notes();
    await store.keep(
      [{ kind: 'trial', reedId, afterPass: 0, playedAt: store.ledger.now(), words: 'free', pitchCents: [] }],
      'a trial',
    );
    button(await act(el, 'Scraped or adjusted'), 'Put pass 0 into the bin').click();
    await until(() => store.passesOf(reedId).length === 0);
    expect(store.undoable.undo).to.equal('pass 0 of Q-1 into the bin');
    await store.undo();
    await el.updateComplete;
    button(await act(el, 'The reed'), 'Put into the bin').click();
    await until(() => store.reeds.length === 0);
    expect(store.snapshot.live.pass.length + store.snapshot.live.trial.length).to.equal(0);
    expect(store.snapshot.live.lot).to.have.length(1);
    await store.undo();
    expect([store.passesOf(reedId).length, store.trialsOf(reedId).length]).to.deep.equal([1, 1]);
  });
});
