import { expect } from 'chai';
import { waitUntil } from '@open-wc/testing-helpers';
import '../../components/bring-in/bring-in.ts';
import type { BlockQuestionElement } from '../../components/bring-in/block-question.ts';
import { expectAccessible } from './accessible.ts';
import { inventedSheets, type InventedSheet } from './bring-in-sheets.ts';
import { emptyLibrary } from './library.ts';

async function bringIn() {
  const { store, host } = await emptyLibrary();
  const el = document.createElement('bench-bring-in');
  host.append(el);
  await waitUntil(() => el.shadowRoot?.querySelector('textarea'));
  const root = el.shadowRoot!;
  let clicks = 0;
  const button = (words: RegExp) =>
    [...root.querySelectorAll('button')].find((one) => words.test(one.textContent?.trim() ?? ''));
  const settled = async () => {
    await waitUntil(() => !root.querySelector('progress'), 'read');
    await el.updateComplete;
  };
  const click = async (one: HTMLElement | undefined) => {
    clicks += 1;
    one!.click();
    await el.updateComplete;
    await settled();
  };
  const choose = async (select: HTMLSelectElement, value: string) => {
    clicks += 1;
    select.value = value;
    select.dispatchEvent(new Event('change'));
    await el.updateComplete;
    await settled();
  };
  const paste = async (text: string) => {
    root.querySelector('textarea')!.value = text;
    await click(button(/^Read what I pasted/));
    await waitUntil(() => root.querySelector('.say'), 'said');
  };
  /** Keeps what is read; the page says so when the answers are remembered, too. */
  const keep = async () => {
    await click(button(/^Keep these/));
    await waitUntil(() => root.querySelector('.say')?.textContent?.includes('Kept:'), 'kept');
  };
  return { store, el, root, button, click, choose, paste, keep, settled, clicks: () => clicks };
}
type Page = Awaited<ReturnType<typeof bringIn>>;

/** Answers what a sheet leaves open, as its maker would. */
async function answer(page: Page, sheet: InventedSheet, label: string): Promise<string[]> {
  const { root, button, click, choose } = page;
  const asked: string[] = [];
  for (let step = 0; step < 8 && !button(/^Keep these/); step++) {
    const question = root.querySelector<BlockQuestionElement>('bench-block-question');
    const mend = root.querySelector<HTMLFormElement>('.mend');
    const unit = button(/^hundredths$/);
    if (question) {
      asked.push('block');
      await question.updateComplete;
      const inside = question.shadowRoot!;
      const { block } = sheet;
      const select = inside.querySelector('select')!;
      expect(select.value, `${sheet.name}: offered`).to.equal(block!.blades);
      await click(
        [...inside.querySelectorAll('button')].find((one) => one.textContent?.trim() === 'It lies so'),
      );
    } else if (mend) {
      asked.push('fault');
      const area = mend.querySelector('textarea')!;
      area.value = area.value.replace(sheet.fault!.written, sheet.fault!.meant);
      await click(mend.querySelector('button')!);
    } else if (unit) {
      asked.push('unit');
      await click(unit);
    } else if (root.querySelector('.columns')) {
      asked.push('columns');
      const [[, heading]] = Object.entries(sheet.columns!) as [[string, string]];
      const thickness = [...root.querySelectorAll('label')].find((one) =>
        one.textContent?.includes('Thickness'),
      )!;
      await choose(thickness.querySelector('select')!, heading);
    } else {
      asked.push('label');
      const input = root.querySelector<HTMLInputElement>('section input[type=text]')!;
      input.value = label;
      input.dispatchEvent(new Event('change'));
      await page.settled();
    }
  }
  return asked;
}

async function expectKept({ store }: Page, sheet: InventedSheet, label: string, index: number) {
  const reed = store.reeds.find((one) => one.label === label)!;
  const pass = (await store.loadPasses(reed.id)).find((one) => one.index === index)!;
  const key = (one: { blade: string; fromTipMm: number; across: number }, count: number) =>
    `${one.blade} ${one.fromTipMm} ${one.across}: ${count}`;
  const kept = pass.readings.map((one) => key(one, Math.round(one.thicknessMm! * 100))).sort();
  const meant = sheet.readings.map((one) => key(one, one.count)).sort();
  expect(kept, sheet.name).to.deep.equal(meant);
}

describe('sixty sheets of many shapes', () => {
  const sheets = inventedSheets(7);

  it('are understood or asked about, none misread, none lost; the same again in two clicks at most', async () => {
    const page = await bringIn();
    const asked = new Map<string, number>();
    for (const [n, sheet] of sheets.entries()) {
      const label = sheet.isNameless ? `R-${n}` : `${sheet.name.startsWith('long') ? 'S' : 'W'}-${n}`;
      await page.paste(sheet.text);
      for (const about of await answer(page, sheet, label)) asked.set(about, (asked.get(about) ?? 0) + 1);
      const said = page.root.querySelector('.say')?.textContent;
      expect(page.button(/^Keep these/), `${sheet.name}: ${said}`).not.to.equal(undefined);
      await page.keep();
      await expectKept(page, sheet, label, 0);
    }
    expect(page.store.reeds.length).to.equal(60);
    // A second sitting with a sheet of every form: what was said is remembered. A label is chosen, not remembered.
    for (const [n, sheet] of inventedSheets(8).slice(0, 12).entries()) {
      if (sheet.fault) continue;
      const label = sheet.isNameless ? `R-${n}` : `${sheet.name.startsWith('long') ? 'S' : 'W'}-${n}`;
      await page.paste(sheet.text);
      const before = page.clicks();
      if (sheet.isNameless) {
        const select = page.root.querySelector<HTMLSelectElement>('section select')!;
        await page.choose(select, label);
      }
      if (!sheet.isNameless) {
        const pass = [...page.root.querySelectorAll('select')].find((one) =>
          one.textContent?.includes('a new pass'),
        );
        expect(pass?.value, `${sheet.name}: a new pass is offered`).to.equal('1');
      }
      await page.keep();
      expect(page.clicks() - before, `${sheet.name}: clicks`).to.be.at.most(2);
      await expectKept(page, sheet, label, 1);
    }
    page.el.remove();
  });

  it('are asked about accessibly', async () => {
    const page = await bringIn();
    await page.paste(sheets.find(({ block }) => block?.blades === 'beside')!.text);
    await expectAccessible(page.el);
    page.el.remove();
  });
});
