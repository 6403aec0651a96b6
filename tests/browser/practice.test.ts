import { expect } from 'chai';
import { sendKeys, sendMouse } from '@web/test-runner-commands';
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
    habits.querySelector<HTMLButtonElement>('article [aria-label^="Change"]')!.click();
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

  it('draws a zone, moves a corner by keys and pointer, and has it in every table at once', async () => {
    const { store, el } = await practice();
    const own = el.shadowRoot!.querySelector('bench-own-zones')!;
    const zones = own.shadowRoot!;
    const button = (words: string) =>
      [...zones.querySelectorAll('button')].find((one) => one.textContent!.trim() === words)!;
    await store.keep(
      [{ kind: 'reed', label: 'Q-1', styleId: 'long-scrape', state: 'scraping', tags: [] }],
      'a reed',
    );
    button('Draw a zone').focus();
    await sendKeys({ press: 'Enter' });
    await until(() => store.snapshot.live.zones[0]?.zones.some(({ title }) => title === 'New zone'));
    await until(() => zones.querySelectorAll('[data-corner]').length === 4);
    const title = zones.querySelector<HTMLInputElement>('label input')!;
    type(title, 'Shoulder');
    await until(() => store.styleOf('long-scrape').zones.at(-1)!.title === 'Shoulder');
    const corner = (k: number) => store.styleOf('long-scrape').zones.at(-1)!.outlines[0]![k]!;
    zones.querySelector<SVGElement>('[data-corner="0 0"]')!.focus();
    await sendKeys({ press: 'ArrowUp' });
    await until(() => corner(0).fromTipMm === 9.5);
    await sendKeys({ down: 'Shift' });
    await sendKeys({ press: 'ArrowLeft' });
    await sendKeys({ up: 'Shift' });
    await until(() => corner(0).across === -0.32);
    await sendKeys({ press: 'Enter' });
    await until(() => store.styleOf('long-scrape').zones.at(-1)!.outlines[0]!.length === 5);
    await sendKeys({ press: 'Delete' });
    await until(() => store.styleOf('long-scrape').zones.at(-1)!.outlines[0]!.length === 4);
    // By pointer: the corner at the lower right is dragged outwards, and one across the other is refused.
    await own.updateComplete;
    const at = (k: number) => {
      const { left, top, width, height } = zones
        .querySelector(`[data-corner="0 ${k}"] .handle`)!
        .getBoundingClientRect();
      return [Math.round(left + width / 2), Math.round(top + height / 2)] as [number, number];
    };
    zones.querySelector('svg')!.scrollIntoView({ block: 'center' });
    const drag = async (from: [number, number], to: [number, number]) => {
      await sendMouse({ type: 'move', position: from });
      await sendMouse({ type: 'down' });
      await sendMouse({ type: 'move', position: to });
      await sendMouse({ type: 'up' });
    };
    const [x, y] = at(2);
    const before = corner(2).across;
    await drag([x, y], [x + 30, y]);
    await until(() => corner(2).across > before + 0.1);
    await drag(at(2), [at(3)[0] - 40, Math.round((at(3)[1] + at(0)[1]) / 2)]);
    await until(() => zones.querySelector('[role=status]')!.textContent!.includes('crosses itself'));
    await expectAccessible(el);
    // Every table, map and plan is made from the reed as it is fitted: it has the zone.
    const { benched } = await fitForDesk(store, store.reeds[0]!);
    expect(benched.assembled.style.zones.map((one) => one.title)).to.include('Shoulder');
    button('Throw Shoulder away').click();
    await until(() => !store.styleOf('long-scrape').zones.some((one) => one.title === 'Shoulder'));
    await store.undo();
    await until(() => store.styleOf('long-scrape').zones.some((one) => one.title === 'Shoulder'));
  });

  it('draws a zone with a pointer from one corner to the other, on both sides alike', async () => {
    const { store, el } = await practice();
    const zones = el.shadowRoot!.querySelector('bench-own-zones')!.shadowRoot!;
    const svg = zones.querySelector('svg')!;
    svg.scrollIntoView({ block: 'center' });
    const draw = [...zones.querySelectorAll('button')].find(
      (one) => one.textContent!.trim() === 'Draw a zone',
    )!;
    draw.dispatchEvent(new MouseEvent('click', { detail: 1, bubbles: true }));
    await until(() => zones.querySelector('.drawing'));
    const box = zones.querySelector('.blade')!.getBoundingClientRect();
    const to = (across: number, down: number): [number, number] => [
      Math.round(box.left + box.width * across),
      Math.round(box.top + box.height * down),
    ];
    await sendMouse({ type: 'move', position: to(0.6, 0.45) });
    await sendMouse({ type: 'down' });
    await sendMouse({ type: 'move', position: to(0.75, 0.6) });
    await sendMouse({ type: 'up' });
    await until(() => store.snapshot.live.zones.length === 1);
    const drawn = store.styleOf('long-scrape').zones.at(-1)!;
    expect(drawn.outlines).to.have.length(2);
    const [left, right] = drawn.outlines.map((outline) => outline.map(({ across }) => across));
    expect(left!.map((across) => -across)).to.deep.equal(right);
  });

  it('sets one floor all over a zone', async () => {
    const { store, floors } = await practice();
    const form = floors.querySelector('form')!;
    form.querySelector('select')!.value = 'spine';
    form.querySelector('input')!.value = '50';
    form.requestSubmit();
    await until(() => store.snapshot.live.floors.length === 1);
    await until(() => [...floors.querySelectorAll('td.own input')].length > 0);
    expect(
      [...floors.querySelectorAll<HTMLInputElement>('td.own input')].every(({ value }) => value === '50'),
    ).to.equal(true);
  });

  it('changes, switches off and adds rows of what to try', async () => {
    const { store, offered, habits } = await practice();
    const first = habits.querySelector('h3')!.textContent!;
    await until(() => symptoms(offered).includes(first));
    habits.querySelector<HTMLButtonElement>('article [aria-pressed]')!.click();
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
