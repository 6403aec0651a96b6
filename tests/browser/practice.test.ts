import { expect } from 'chai';
import '../../components/plan/what-to-try.ts';
import '../../components/practice/practice-page.ts';
import { fitForDesk } from '../../components/bench/desk-fit.ts';
import { expectAccessible } from './accessible.ts';
import { emptyLibrary } from './library.ts';
import { until } from './until.ts';

async function practice() {
  const { store, host } = await emptyLibrary();
  const el = document.createElement('bench-practice');
  const offered = document.createElement('bench-what-to-try');
  host.append(el, offered);
  const root = (name: 'bench-own-floors' | 'bench-own-habits') =>
    el.shadowRoot!.querySelector(name)!.shadowRoot!;
  await until(() => el.shadowRoot?.querySelector('bench-own-habits')?.shadowRoot?.querySelector('article'));
  offered.shadowRoot!.querySelector('summary')!.click();
  return {
    store,
    el,
    offered: offered.shadowRoot!,
    floors: root('bench-own-floors'),
    habits: root('bench-own-habits'),
  };
}

/** Half a millimetre from the tip, in the middle. */
const floor = (root: ShadowRoot) => root.querySelectorAll('tr')[2]!.querySelector('input')!;
function type(field: HTMLInputElement, text: string) {
  field.value = text;
  field.dispatchEvent(new Event('change', { bubbles: true }));
}
const formOf = (root: ShadowRoot) =>
  root.querySelector('bench-habit-form')?.shadowRoot?.querySelector('form');
const symptoms = (root: ShadowRoot) =>
  [...root.querySelectorAll('option')].map(({ textContent }) => textContent);

describe('what the maker goes by', () => {
  it('is accessible, with a row open', async () => {
    const { el, habits } = await practice();
    habits.querySelector<HTMLButtonElement>('article button')!.click();
    await until(() => formOf(habits));
    await expectAccessible(el);
  });

  it('keeps a floor, plans with it, refuses nonsense, and goes back', async () => {
    const { store, floors } = await practice();
    expect(floor(floors).value).to.equal('6');
    type(floor(floors), '8');
    await until(() => store.snapshot.live.floors.length === 1);
    await store.keep(
      [{ kind: 'reed', label: 'Q-1', styleId: 'long-scrape', state: 'scraping', tags: [] }],
      'a reed',
    );
    const { benched } = await fitForDesk(store, store.reeds[0]!);
    expect(benched.assembled.style.floors.floorMm[1]![0]).to.equal(0.08);
    type(floor(floors), 'thin');
    await until(() => floors.querySelector('[role=status]')!.textContent !== '');
    expect(floor(floors).value).to.equal('8');
    await until(() => floors.querySelector('p ~ button'));
    floors.querySelector<HTMLButtonElement>('p ~ button')!.click();
    await until(() => store.snapshot.live.floors.length === 0);
    await until(() => floor(floors).value === '6');
  });

  it('changes, switches off and adds rows of what to try', async () => {
    const { store, offered, habits } = await practice();
    const first = habits.querySelector('h3')!.textContent!;
    await until(() => symptoms(offered).includes(first));
    habits.querySelector<HTMLInputElement>('article input[type=checkbox]')!.click();
    await until(() => !symptoms(offered).includes(first));
    [...habits.querySelectorAll('button')].at(-1)!.click();
    await until(() => formOf(habits));
    const form = formOf(habits)!;
    form.requestSubmit();
    await until(() => form.querySelector('[role=alert]'));
    for (const [name, text] of [
      ['symptom', 'Whistles in the cold'],
      ['action', 'warm it first'],
      ['whoSays', 'an invented teacher'],
    ] as const)
      form.querySelector<HTMLInputElement>(`[name=${name}]`)!.value = text;
    form.querySelector<HTMLSelectElement>('[name="sign blend"]')!.value = 'over';
    form.requestSubmit();
    await until(() => symptoms(offered).includes('Whistles in the cold'));
    const { habit } = store.snapshot.live;
    expect(habit.map(({ off }) => off)).to.have.members([true, undefined]);
    const [own] = habit.filter(({ off }) => !off);
    expect(own).to.deep.include({
      signs: [{ zone: 'blend', is: 'over' }],
      whoSays: 'an invented teacher',
    });
    expect(habits.textContent).to.match(/So says an invented teacher/);
  });
});
