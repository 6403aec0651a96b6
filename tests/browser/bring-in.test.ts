import { expect } from 'chai';
import { waitUntil } from '@open-wc/testing-helpers';
import '../../components/bring-in/bring-in.ts';
import { emptyLibrary } from './library.ts';

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
  return { store, host, root, button, paste };
}

it('asks once which column is which, and remembers it for files of the same shape', async () => {
  const { store, host, root, button, paste } = await page();
  await paste(sheet('T-1', 40));
  await waitUntil(() => root.querySelector('section select'));
  const select = root.querySelector<HTMLSelectElement>('section select')!;
  select.value = 'dial';
  select.dispatchEvent(new Event('change'));
  await waitUntil(() => button('Keep these'));
  expect(root.textContent).not.to.contain('Read as last time');
  button('Keep these')!.click();
  await waitUntil(() => store.reeds.length === 1);

  await paste(sheet('T-2', 41));
  await waitUntil(() => button('Keep these'), 'nothing is asked a second time');
  expect(root.textContent).to.contain('Read as last time with a file of this shape.');
  button('Ask me again')!.click();
  await waitUntil(() => root.querySelector('section select'));
  host.remove();
});
