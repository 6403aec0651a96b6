import { expect } from 'chai';
import { waitUntil } from '@open-wc/testing-helpers';
import '../../components/bring-in/bring-in.ts';
import { generatedReed } from '../generator/generated-reed.ts';
import { withFault } from '../generator/planted-faults.ts';
import { expectAccessible } from './accessible.ts';
import { emptyLibrary } from './library.ts';
import { until } from './until.ts';
import { libraryText } from '../whole-library.ts';

/** A maker's own headings: nothing says which column is the thickness. */
const sheet = (label: string, dial: number) =>
  [
    'reed;pass;blade;from_tip_mm;across;dial',
    ...[1, 2, 3, 4, 5].map((mm) => `${label};0;A;${mm};0;${dial + 4 * mm}`),
  ].join('\n');

async function page() {
  const { store, host } = await emptyLibrary();
  const el = document.createElement('bench-bring-in');
  host.append(el);
  await waitUntil(() => el.shadowRoot?.querySelector('textarea'));
  const root = el.shadowRoot!;
  const button = (words: string) =>
    [...root.querySelectorAll('button')].find((one) => one.textContent?.trim() === words);
  const paste = async (text: string) => {
    root.querySelector('textarea')!.value = text;
    button('Read what I pasted')!.click();
    await waitUntil(() => root.querySelector('.say') ?? root.querySelector('select'));
  };
  const choose = (file: File) => {
    const chosen = new DataTransfer();
    chosen.items.add(file);
    const input = root.querySelector<HTMLInputElement>('input[type=file]')!;
    input.files = chosen.files;
    input.dispatchEvent(new Event('change'));
  };
  return { store, host, el, root, button, paste, choose };
}

/** One reed with a thickness that needs no question. */
const small = (label: string) =>
  new File(
    [`reed,blade,from_tip_mm,across,thickness_mm\n${label},A,5,0,0.41\n${label},A,7,0,0.45`],
    `${label}.csv`,
  );

/** 40,000 readings of ten reeds. */
function large(): File {
  const rows = Array.from({ length: 40_000 }, (_, i) => `L-${i % 10},A,${Math.floor(i / 10) / 100},0,0.4`);
  return new File([['reed,blade,from_tip_mm,across,thickness_mm', ...rows].join('\n')], 'large.csv');
}

/** A file whose bytes come when they are let go. */
function held(file: File) {
  let letGo!: () => void;
  const free = new Promise<void>((resolve) => (letGo = resolve));
  const bytes = file.arrayBuffer.bind(file);
  file.arrayBuffer = () => free.then(bytes);
  return { file, letGo };
}

it('asks once which column is which, and remembers it for files of the same shape', async () => {
  const { store, host, root, button, paste } = await page();
  await paste(sheet('T-1', 40));
  await waitUntil(() => root.querySelector('section select'));
  const thickness = [...root.querySelectorAll('label')].find((one) => one.textContent?.includes('Thickness'));
  const select = thickness!.querySelector('select')!;
  select.value = 'dial';
  select.dispatchEvent(new Event('change'));
  await waitUntil(() => button('Keep these'));
  expect(root.textContent).not.to.contain('Read as last time');
  button('Keep these')!.click();
  await until(() => store.choices.fileShapes?.length === 1);

  await paste(sheet('T-2', 41));
  await waitUntil(() => button('Keep these'), 'nothing is asked a second time');
  expect(root.textContent).to.contain('Read as last time with a file of this shape.');
  button('Ask me again')!.click();
  await waitUntil(() => root.querySelector('section select'));
  host.remove();
});

it('draws the two blades as they will be, the pass of choice, before anything is kept', async () => {
  const { store, host, el, root, choose } = await page();
  const rows = ['T-1,0,A,5,0,0.41', 'T-1,0,B,7,0.4,0.46', 'T-1,1,A,5,0,0.39', 'T-1,1,A,7,0,'];
  choose(new File([['reed,pass,blade,from_tip_mm,across,thickness_mm', ...rows].join('\n')], 'T-1.csv'));
  await waitUntil(() => root.querySelector('bench-blades-to-be')?.shadowRoot?.querySelector('svg'));
  const blades = root.querySelector('bench-blades-to-be')!.shadowRoot!;
  const drawn = () => [...blades.querySelectorAll('svg')].map((one) => one.getAttribute('aria-label'));
  const select = blades.querySelector('select')!;
  expect(select.value).to.equal('T-1, pass 1');
  expect(drawn()[0]).to.match(/^Blade A as it will be/);
  expect(blades.querySelector('svg')!.textContent).to.contain('39');
  select.value = 'T-1, pass 0';
  select.dispatchEvent(new Event('change'));
  await waitUntil(() => drawn().length === 2);
  expect([...blades.querySelectorAll('svg')].map((one) => /41|46/.exec(one.textContent!)?.[0])).to.deep.equal(
    ['41', '46'],
  );
  await expectAccessible(el);
  expect(store.reeds).to.have.length(0);
  host.remove();
});

it('shows how much of a long file is read, and cancelling leaves everything as it was', async () => {
  const { store, host, el, root, button, choose } = await page();
  choose(small('T-1'));
  await until(() => button('Keep these'));

  const { file, letGo } = held(large());
  choose(file);
  await until(() => root.querySelector('progress'));
  expect(root.querySelector('[role=status]')!.textContent).to.equal('Reading large.csv');
  expect(button('Keep these')!.disabled, 'nothing is kept while something is read').to.equal(true);
  await expectAccessible(el);

  button('Cancel')!.focus();
  const shares: number[] = [];
  new MutationObserver(() => {
    const share = root.querySelector('progress')?.value ?? 0;
    if (share > 0) shares.push(share);
    if (share > 0.5) button('Cancel')!.click();
  }).observe(root, { subtree: true, childList: true, attributes: true, characterData: true });
  letGo();
  await until(() => !root.querySelector('progress'));
  expect(shares.length).to.be.greaterThan(4);
  expect(shares.at(-1)).to.be.within(0.5, 0.9);
  expect(root.activeElement).to.equal(root.querySelector('input[type=file]'));
  expect(root.textContent).to.contain('T-1: pass 0, 2 readings');
  expect(store.trouble).to.equal(undefined);
  expect(store.reeds).to.have.length(0);
  button('Keep these')!.click();
  await until(() => store.reeds.length === 1);
  host.remove();
});

it('understands a long file to its end', async () => {
  const { host, root, button, choose } = await page();
  choose(large());
  await until(() => button('Keep these'));
  expect(root.querySelector('.say')!.textContent).to.contain('40000 readings');
  host.remove();
});

it('reads the file that was chosen last, whichever is ready first', async () => {
  const { store, host, root, button, choose } = await page();
  const library = held(new File(['{}'], 'library.json'));
  const sheet = held(small('T-1'));
  choose(library.file);
  await until(() => root.textContent?.includes('Reading library.json'));
  choose(sheet.file);
  await until(() => root.textContent?.includes('Reading T-1.csv'));
  choose(small('T-2'));
  await until(() => button('Keep these'));
  sheet.letGo();
  library.letGo();
  await Promise.all([sheet.file.arrayBuffer(), library.file.arrayBuffer()]);
  choose(held(small('T-3')).file);
  await until(() => button('Cancel'));
  button('Cancel')!.click();
  await until(() => !button('Cancel'));
  expect(root.textContent).to.contain('T-2: pass 0').and.not.contain('T-1');
  expect(root.querySelector('bench-bring-library')).to.equal(null);
  expect(store.trouble).to.equal(undefined);
  host.remove();
});

it('says of a library file what is wrong, and of the next what it would add', async () => {
  const { store, host, root, button, choose } = await page();
  const answer = () => root.querySelector('bench-bring-library')?.shadowRoot?.textContent;
  choose(new File(['{}'], 'broken.json'));
  await until(() => answer()?.includes('cannot be brought in as it is'));
  const { documents, acts } = await store.ledger.readWhole();
  const empty = libraryText({ documents, acts });
  const { file } = held(new File([empty], 'held.json'));
  choose(file);
  await until(() => button('Cancel'));
  button('Cancel')!.click();
  await until(() => !button('Cancel'));
  expect(answer(), 'cancelled').to.contain('cannot be brought in as it is');
  choose(new File([empty], 'library.json'));
  await until(() => answer()?.includes('A library:'));
  host.remove();
});

it('keeps the preview when the readings cannot be kept', async () => {
  const { store, host, root, button, choose } = await page();
  choose(small('T-1'));
  await until(() => button('Keep these'));
  const { keep } = store;
  store.keep = () => Promise.reject(new Error('thrown'));
  button('Keep these')!.click();
  await until(() => store.trouble);
  expect(root.textContent).to.contain('T-1: pass 0, 2 readings');
  expect(store.choices.fileShapes ?? [], 'no answer is kept before the readings').to.have.length(0);
  store.keep = keep;
  button('Keep these')!.click();
  button('Keep these')!.click();
  await until(() => root.querySelector('.way-on'));
  expect(store.reeds, 'once, though asked twice').to.have.length(1);
  host.remove();
});

it('keeps a second file though the first is still being kept', async () => {
  const { store, host, root, button, choose } = await page();
  const { keep } = store;
  let letGo!: () => void;
  const held = new Promise<void>((resolve) => (letGo = resolve));
  store.keep = async (...asked) => {
    await held;
    return keep.apply(store, asked);
  };
  for (const label of ['T-1', 'T-2']) {
    choose(small(label));
    await until(
      () => root.textContent!.includes(`${label}: pass 0`) && button('Keep these')?.disabled === false,
    );
    button('Keep these')!.click();
    await until(() => button('Keep these')!.disabled);
    expect(root.textContent).to.contain('Being kept.');
  }
  letGo();
  await until(() => store.reeds.length === 2);
  await until(() => root.querySelector('.say')!.textContent!.includes('Kept: T-2.'));
  host.remove();
});

it('brings in what can be read and leaves cells at fault open, told and drawn', async () => {
  const { store, host, el, root, button, choose } = await page();
  const rows = ['T-1,0,A,5,0,0.41', 'T-1,0,A,6,0,O.43', 'T-1,0,A,7,0,0.45'];
  choose(new File([['reed,pass,blade,from_tip_mm,across,thickness_mm', ...rows].join('\n')], 'T-1.csv'));
  await until(() => button('Leave this cell open: not read'));
  expect(root.textContent).to.contain('line 3, column thickness_mm');
  await expectAccessible(el);
  button('Leave this cell open: not read')!.click();
  await until(() => button('Keep these'));
  expect(root.querySelector('.say')!.textContent).to.contain('2 readings, 1 missing');
  button('Take my answers back')!.click();
  await until(() => button('Leave this cell open: not read'));
  button('Leave this cell open: not read')!.click();
  await until(() => button('Keep these'));
  button('Keep these')!.click();
  await until(() => store.reeds.length === 1);
  const [pass] = await store.loadPasses(store.reeds[0]!.id);
  expect(pass!.readings.map(({ fromTipMm, thicknessMm }) => [fromTipMm, thicknessMm])).to.deep.equal([
    [5, 0.41],
    [6, undefined],
    [7, 0.45],
  ]);
  // It is of this file alone: the next with a fault is asked about again.
  expect(store.choices.fileShapes ?? []).to.deep.equal([]);
  host.remove();
});

it('tries whether A and B were written for each other, says so, and puts it right by one act', async () => {
  const { store, host, root, button, choose } = await page();
  const [first, second] = withFault(generatedReed(100), 'swapped');
  const reedId = store.ledger.newId();
  const readingsOf = ({ readings }: typeof first & object) =>
    readings.map(({ blade, fromTipMm, across, thicknessMm }) => ({
      ...{ blade, fromTipMm, across, thicknessMm, repeat: 0 },
      ...{ flag: 'ok' as const, role: 'station' as const },
    }));
  const { overallLengthMm } = first!;
  await store.keep(
    [
      { kind: 'reed', id: reedId, label: 'Q-1', styleId: 'long-scrape', state: 'scraping', tags: [] },
      { kind: 'pass', reedId, index: 0, overallLengthMm, remedies: [], readings: readingsOf(first!) },
    ],
    'an invented reed',
  );
  const rows = second!.readings.map(
    ({ blade, fromTipMm, across, thicknessMm }) =>
      `Q-1,1,${second!.overallLengthMm},${blade},${fromTipMm},${across},${thicknessMm}`,
  );
  choose(
    new File(
      [['reed,pass,overall_length_mm,blade,from_tip_mm,across,thickness_mm', ...rows].join('\n')],
      'Q-1.csv',
    ),
  );
  const notice = () => root.querySelector('bench-fault-notice')?.shadowRoot;
  await waitUntil(() => notice()?.textContent?.includes('A and B were written for each other'), 'told');
  expect(store.passesOf(reedId)).to.have.length(1);
  [...notice()!.querySelectorAll('button')]
    .find(({ ariaLabel }) => ariaLabel?.startsWith('Use this'))!
    .click();
  await until(() => notice()?.textContent?.includes('Put right in this pass'));
  button('Keep these')!.click();
  await until(() => store.passesOf(reedId).length === 2);
  expect(store.passesOf(reedId)[1]!.remedies).to.deep.equal([{ kind: 'swapped' }]);
  host.remove();
});
