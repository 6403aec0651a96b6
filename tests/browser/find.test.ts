import { expect } from 'chai';
import { waitUntil } from '@open-wc/testing-helpers';
import { sendKeys } from '@web/test-runner-commands';
import '../../components/find/find-screen.ts';
import { expectAccessible } from './accessible.ts';
import { emptyLibrary } from './library.ts';

async function shown() {
  const { store, host } = await emptyLibrary();
  const reed = (label: string, tags: string[]) =>
    ({ kind: 'reed', label, tags, styleId: 'long-scrape', state: 'playing' }) as const;
  await store.keep([reed('T-1', ['soft']), reed('T-2', ['tour']), reed('a very long label', [])], 'invented');
  const el = document.createElement('bench-find');
  host.append(el);
  await el.updateComplete;
  return el;
}
const rows = (el: Element) =>
  [...el.shadowRoot!.querySelectorAll('tbody th')].map((cell) =>
    cell.textContent!.trim().replace('\u2011', '-'),
  );

describe('bench-find', () => {
  it('is accessible', async () => {
    await expectAccessible(await shown());
  });

  it('narrows the list while one types, and counts', async () => {
    const el = await shown();
    el.shadowRoot!.querySelector('input')!.focus();
    await sendKeys({ type: 'tour' });
    await waitUntil(() => rows(el).length === 1, 'one is found');
    expect(rows(el)).to.deep.equal(['T-2']);
    expect(el.shadowRoot!.querySelector('h1')!.textContent).to.equal('1 of 3 reeds.');
  });

  it('shows labels with numbers for the thread, and says where one is needed', async () => {
    const el = await shown();
    el.shadowRoot!.querySelector('summary')!.click();
    const sheet = () => el.shadowRoot!.querySelector('bench-label-sheet')!.shadowRoot!;
    await waitUntil(() => sheet().querySelectorAll('li').length === 3, 'three labels');
    const threads = [...sheet().querySelectorAll('.thread')].map((thread) => thread.textContent!.trim());
    expect(threads).to.deep.equal(['over 5 signs', '\u2022 T1', '\u2022 T2']);
    const [label] = sheet().querySelectorAll('li');
    // 45 mm at 96 pixels an inch.
    expect(label!.getBoundingClientRect().width).to.be.closeTo((45 / 25.4) * 96, 1);
    await expectAccessible(el);
  });
});
