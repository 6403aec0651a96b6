import { expect } from 'chai';
import { followOf } from '../../components/plan/follow.ts';
import '../../components/plan/near-reeds.ts';
import '../../components/plan/target-chooser.ts';
import type { TargetMaker } from '../../components/plan/target-maker.ts';
import type { LibraryStore } from '../../components/store/library-store.ts';
import { assembleReed } from '../../src/reed/assemble.ts';
import { expectAccessible } from './accessible.ts';
import { inventedBench } from './invented-bench.ts';
import { until } from './until.ts';

async function chooser() {
  const bench = await inventedBench();
  const { store, host, idOf } = bench;
  const el = document.createElement('bench-target-chooser');
  host.append(el);
  /** What the page hands down after every change. */
  const refresh = async () => {
    const reed = store.reed(idOf('M-142'))!;
    Object.assign(el, { reed, followed: { ...followOf(store, reed)!, reeds: [] } });
    await el.updateComplete;
  };
  await refresh();
  return { ...bench, el, root: el.shadowRoot!, refresh };
}

const selects = (root: ShadowRoot) => [...root.querySelectorAll('select')];
function choose(select: HTMLSelectElement, words: RegExp) {
  const option = [...select.options].find(({ text }) => words.test(text))!;
  select.value = option.value;
  select.dispatchEvent(new Event('change'));
}
const only = (store: LibraryStore) => store.snapshot.live.target[0]!;

async function maker() {
  const bench = await chooser();
  const { el, root } = bench;
  [...root.querySelectorAll('button')].find(({ textContent }) => /Make a target/.test(textContent!))!.click();
  await el.updateComplete;
  const made = root.querySelector('bench-target-maker')!;
  await until(() => made.shadowRoot?.querySelector('form'));
  return { ...bench, made, form: () => made.shadowRoot!.querySelector('form')! };
}

async function kind(made: TargetMaker, words: RegExp) {
  choose(made.shadowRoot!.querySelector('select')!, words);
  await made.updateComplete;
}
function fill(form: HTMLFormElement, name: string, text: string) {
  (form.elements.namedItem(name) as HTMLInputElement | HTMLSelectElement).value = text;
}
const problem = (form: HTMLFormElement) => form.querySelector('[role=alert]')?.textContent ?? '';

describe('bench-target-chooser', () => {
  it('is accessible, with the maker of targets open', async () => {
    const { el } = await maker();
    await expectAccessible(el);
  });

  it('offers the newest favourite, other reeds of the style, and what is usual as common practice', async () => {
    const { root } = await chooser();
    const [beside] = selects(root);
    const words = [...beside!.options].map(({ text }) => text);
    expect(beside!.selectedOptions[0]!.text).to.equal('The newest favourite: K-117');
    expect(words).to.include('K-117, pass 0, favourite');
    expect(words).to.include('What is usual for this style (common practice)');
    expect(words.some((word) => word.startsWith('S-026'))).to.equal(false);
    expect(words.some((word) => word.startsWith('M-142'))).to.equal(false);
  });

  it('keeps a choice with the reed, and forgets it', async () => {
    const { store, idOf, root, refresh } = await chooser();
    choose(selects(root)[0]!, /^What is usual/);
    await until(() => store.reed(idOf('M-142'))?.targetId);
    expect(only(store).recipe).to.deep.equal({ from: 'style' });
    await refresh();
    expect(selects(root)[0]!.selectedOptions[0]!.text).to.match(/^What is usual/);
    [...root.querySelectorAll('button')].find(({ textContent }) => /Forget/.test(textContent!))!.click();
    await until(() => store.snapshot.live.target.length === 0);
    expect(store.reed(idOf('M-142'))!.targetId).to.equal(undefined);
  });

  it('keeps how places are laid on each other', async () => {
    const { store, root, refresh } = await chooser();
    choose(selects(root)[1]!, /ends of tip, heart and scrape/);
    await until(() => store.snapshot.live.target.length === 1);
    expect(only(store).placing).to.equal('lengths');
    await refresh();
    choose(selects(root)[1]!, /from the tip/);
    await until(() => only(store).placing === 'tip');
    expect(store.snapshot.live.target).to.have.length(1);
  });
});

describe('bench-target-maker', () => {
  it('makes the mean of several reeds, and asks for two of them and a name', async () => {
    const { store, idOf, form } = await maker();
    const boxes = [...form().querySelectorAll<HTMLInputElement>('[name=example]')];
    expect(boxes[0]!.closest('label')!.textContent).to.match(/K-117, pass 0, favourite/);
    boxes[0]!.click();
    form().requestSubmit();
    await until(() => /two reeds or more/.test(problem(form())));
    boxes.at(-1)!.click();
    form().requestSubmit();
    await until(() => /a name/.test(problem(form())));
    fill(form(), 'name', 'my evening reeds');
    form().requestSubmit();
    await until(() => store.snapshot.live.target.length === 1);
    const { name, recipe } = only(store);
    expect(name).to.equal('my evening reeds');
    expect(recipe).to.deep.include({ from: 'reeds' });
    expect('examples' in recipe && recipe.examples).to.have.length(2);
    expect(store.reed(idOf('M-142'))!.targetId).to.equal(only(store).id);
  });

  it('puts the tip of one to the back of another', async () => {
    const { store, made, form } = await maker();
    await kind(made, /^The tip of one/);
    fill(form(), 'name', 'a mixture');
    form().requestSubmit();
    await until(() => /Choose a reed for the tip/.test(problem(form())));
    fill(form(), 'tip', '0');
    fill(form(), 'back', '1');
    fill(form(), 'at', 'far');
    form().requestSubmit();
    await until(() => /a distance from the tip/.test(problem(form())));
    fill(form(), 'at', '5,5');
    form().requestSubmit();
    await until(() => store.snapshot.live.target.length === 1);
    expect(only(store).recipe).to.deep.include({ from: 'tip-and-back', atMm: 5.5 });
  });

  it('takes zone values in the unit of the maker, and says which is none', async () => {
    const { store, made, form } = await maker();
    await kind(made, /^Zone values/);
    fill(form(), 'name', 'by hand');
    form().requestSubmit();
    await until(() => /Set one zone or more/.test(problem(form())));
    fill(form(), 'zone heart', 'thick');
    form().requestSubmit();
    await until(() => /^Heart: this is not a thickness/.test(problem(form())));
    fill(form(), 'zone heart', '45,5');
    form().requestSubmit();
    await until(() => store.snapshot.live.target.length === 1);
    const { recipe } = only(store);
    expect('zones' in recipe && recipe.zones).to.have.length(1);
    const [heart] = 'zones' in recipe ? recipe.zones : [];
    expect(heart!.name).to.equal('heart');
    expect(heart!.meanMm).to.be.closeTo(0.455, 1e-12);
  });
});

describe('bench-near-reeds', () => {
  it('is accessible, and lists the most alike first with how far apart they are', async () => {
    const { host, store, idOf } = await inventedBench();
    const reed = store.reed(idOf('M-142'))!;
    const passes = await store.loadPasses(reed.id);
    const el = document.createElement('bench-near-reeds');
    el.benched = { reed, passes, assembled: assembleReed({ reed, passes }) };
    el.pass = passes.length - 1;
    host.append(el);
    await until(() => el.shadowRoot?.querySelector('li'));
    await expectAccessible(el);
    const rows = [...el.shadowRoot!.querySelectorAll('li')].map(({ textContent }) =>
      textContent!.replace(/\s+/g, ' ').trim(),
    );
    const apart = rows.map((row) => Number(/([\d.]+) hundredths? apart/.exec(row)![1]));
    expect(apart).to.deep.equal([...apart].sort((a, b) => a - b));
    expect(rows.some((row) => /^K-117 .*favourite$/.test(row))).to.equal(true);
    expect(rows.some((row) => row.startsWith('M-142'))).to.equal(false);
    expect(el.shadowRoot!.textContent).to.match(/Likeness is no quality/);
  });
});
