import type { Page } from 'playwright-core';
import { unfolded } from './every-place.ts';
import { pageText } from './page-words.ts';
import { printedFigures, type Printed } from './printed-figures.ts';

const NUMBER = /\(?([+\u2212]?\d[\d.,]*)\)?[^±\d]*(?:±([\d.,]*\d))?/;

/** A text with a number in it as a figure under a name; nothing where it has none. */
function printed(where: string, name: string, text: string | undefined): Printed[] {
  const [, value, doubt] = NUMBER.exec(text ?? '') ?? [];
  return value ? [{ where, name, row: name, head: '', value, ...(doubt && { doubt }) }] : [];
}

interface Cell {
  readonly row: string;
  readonly head: string;
  readonly text: string;
}

/** Every cell of some tables, with the name of its row and the heading of its column. */
function cellsOf(page: Page, tables: string): Promise<Cell[]> {
  return page.locator(tables).evaluateAll((all) => {
    const words = (element: Element | undefined) =>
      element?.textContent?.replace(/\s+/g, ' ').replaceAll('\u2011', '-').trim() ?? '';
    return (all as HTMLTableElement[]).flatMap((table) =>
      [...table.tBodies[0]!.rows].flatMap(({ cells: [name, ...cells] }) =>
        cells.map((cell) => ({
          row: words(name),
          head: words(table.tHead?.rows[0]?.cells[cell.cellIndex]),
          text: words(cell),
        })),
      ),
    );
  });
}

/** What sentences say of a reed after a pass, wherever they stand. */
const SAID: readonly (readonly [pattern: RegExp, name: string])[] = [
  [/([\d.]+) mm overall/, 'overall length'],
  [/(?:The blend stands at|The centre passes 30 hundredths at) ([\d.]+) mm/, 'crossing.0.30'],
  [/side 1 less side 2 read ([+\u2212\d.]+ ±[\d.]+) hundredths at the gouger/, 'gouge.sides'],
  [/the gouger its sides did not measurably differ, (\([+\u2212\d.]+\) ±[\d.]+)/, 'gouge.sides'],
];

/** Names that belong to the reed, whatever the pass. */
const OF_THE_REED = ['gouge.sides'];

/** The figures in the sentences of a bench screen, and the first step of its plan in one line. */
export async function saidFigures(
  page: Page,
  where: string,
  label: string,
  pass: number,
): Promise<Printed[]> {
  const text = await pageText(page);
  const said = SAID.flatMap(([pattern, name]) => {
    const of = OF_THE_REED.includes(name) ? label : `${label}, pass ${pass}`;
    return printed(where, `${of}: ${name}`, pattern.exec(text)?.[1]);
  });
  return [...said, ...stepsIn(text, where, `${label}, pass ${pass}`)];
}

/** A step as Next frames it in lines, or as paper has it in one. */
function stepsIn(text: string, where: string, of: string): Printed[] {
  const [, place, take, towards] =
    /^(?:\d+\. )?([A-Z][\w ]+, (?:both blades|blade [AB]).* mm.*?)(?::? take|\nTake) ([\d.,]+ of the [^\n]+? above ([^\n]+?) there)/m.exec(
      text,
    ) ?? [];
  if (!take) return [];
  const value = `${place}: ${take}`.replace(/\s+/g, ' ');
  return [{ where, name: `${of}: first step towards ${towards}`, row: 'step', head: '', value }];
}

const SMALL = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten'];

const go = (page: Page, hash: string, ready: string) => unfolded(page, { name: hash, hash, ready });

/** Hours of every reed on Case, Find, Rotation and in its history; what its life prints of the record. */
async function figuresOfReeds(page: Page, ids: ReadonlyMap<string, string>): Promise<Printed[]> {
  const hours = (where: string, cells: readonly Cell[], head: string) =>
    cells.flatMap((cell) =>
      cell.head === head ? printed(where, `${cell.row}: hours played`, cell.text) : [],
    );
  const found: Printed[] = [];
  await go(page, 'case', 'bench-blend-scale tspan');
  const slots = await page.locator('bench-case .slots li a').evaluateAll((all) =>
    all.map((slot) => {
      const words = slot.textContent!.replace(/\s+/g, ' ').replaceAll('\u2011', '-');
      return [slot.querySelector('.label')!.textContent!, /[\d.]+ h\b/.exec(words)?.[0]] as const;
    }),
  );
  for (const [label, played] of slots)
    found.push(...printed('case', `${label.replaceAll('\u2011', '-')}: hours played`, played));
  const counted = /^(\w+) reeds? (?:alive|in the case)/m.exec(await pageText(page))?.[1]?.toLowerCase();
  const alive = counted && SMALL.includes(counted) ? String(SMALL.indexOf(counted)) : counted;
  found.push(...printed('case', 'reeds: alive', alive));
  found.push(...(await printedFigures(page, 'case')));
  found.push(...(await airOfCase(page)));
  await go(page, 'find', 'bench-find tbody tr');
  found.push(...hours('find', await cellsOf(page, 'bench-find table'), 'Played'));
  await go(page, 'rotation', 'bench-lasting-chart .say');
  found.push(...hours('lives', await cellsOf(page, 'bench-lives-chart .twin table'), 'Played'));
  const lives = await page.locator('bench-lives-chart .twin table tbody tr').count();
  const more = page.getByRole('button', { name: /^\d+ more$/ });
  const unseen = (await more.count()) > 0 ? parseInt((await more.textContent())!) : 0;
  found.push(...printed('lives', 'reeds: alive', String(lives + unseen)));
  found.push(...hours('lasting', await cellsOf(page, 'bench-lasting-chart .twin table'), 'Hours'));
  for (const [, half] of (await pageText(page)).matchAll(/alf of your reeds last ([\d.]+ h)/g))
    found.push(...printed('rotation', 'reeds: half last', half));
  for (const [label, id] of ids) {
    await go(page, `history/${id}`, 'bench-life-pictures td[data-figure]');
    const text = await pageText(page);
    found.push(...printed('history', `${label}: hours played`, /([\d.]+ h) played/.exec(text)?.[1]));
    for (const [, pass, length] of text.matchAll(/Pass (\d+) (?:day \d+, )?([\d.]+) mm/g))
      found.push(...printed('history', `${label}, pass ${pass}: overall length`, length));
    found.push(...(await printedFigures(page, `history of ${label}`)));
  }
  return found;
}

async function airOfCase(page: Page): Promise<Printed[]> {
  const rows = await page
    .locator('bench-case-aside dl > div')
    .evaluateAll((all) => all.map((row) => [...row.children].map(({ textContent }) => textContent!.trim())));
  return rows.flatMap(([name = '', text]) =>
    /^(Humidity|Temperature)$/.test(name) ? printed('case', `air now: ${name}`, text) : [],
  );
}

/** Gouged pieces: in their lot, by themselves, and in what Cane says of one. */
async function figuresOfCane(page: Page): Promise<Printed[]> {
  const found: Printed[] = [];
  await go(page, 'cane', 'bench-cane');
  const lots = await page
    .locator('a[href^="#/cane/lot/"]')
    .evaluateAll((all) =>
      all.map((link) => [link.getAttribute('href')!.slice(2), link.textContent!.trim()] as const),
    );
  for (const [hash, lot] of new Map(lots)) {
    await go(page, hash, 'bench-lot-panel .acts');
    const cells = await cellsOf(page, 'bench-lot-chart .twin table');
    const pieces = await page
      .locator('bench-lot-chart .twin tbody a[href^="#/cane/piece/"]')
      .evaluateAll((all) =>
        all.map((link) => [link.textContent!.trim(), link.getAttribute('href')!.slice(2)] as const),
      );
    for (const { row, head, text } of cells) {
      const reed = cells.find((cell) => cell.row === row && cell.head === 'Reed')!.text;
      const name = { Middle: 'centre', 'Side 1 less side 2': 'sides' }[head];
      if (!name) continue;
      found.push(...printed(lot, `${lot}, piece ${row}: ${name}`, text));
      if (name === 'sides' && reed.length > 1) found.push(...printed(lot, `${reed}: gouge.sides`, text));
    }
    const [number, own] = pieces[0] ?? [];
    if (!own) continue;
    await go(page, own, 'bench-piece-panel h2');
    for (const { row, text } of await cellsOf(page, 'bench-piece-panel table:not(:has(thead))')) {
      const name = { Centre: 'centre', 'Side 1 less side 2': 'sides' }[row];
      if (name) found.push(...printed('piece', `${lot}, piece ${number}: ${name}`, text));
    }
  }
  return found;
}

/** What the gauge can tell, and the air of the room. */
async function figuresOfGaugeAndRoom(page: Page): Promise<Printed[]> {
  const found: Printed[] = [];
  await go(page, 'gauge', 'bench-causes-chart svg');
  const said = /A change under ([\d.]+) .* under ([\d.]+) /.exec(await pageText(page)) ?? [];
  const bars = (await cellsOf(page, 'bench-causes-chart .twin table')).filter(
    ({ head }) => head === 'Smallest change',
  );
  found.push(
    ...printed('gauge', 'gauge: least change', said[1]),
    ...printed('gauge', 'gauge: most change', said[2]),
  );
  found.push(...printed('bars', 'gauge: least change', bars[0]?.text));
  found.push(...printed('bars', 'gauge: most change', bars.at(-1)?.text));
  await go(page, 'room', 'bench-room-chart svg');
  const air = /(\d+) %(?: and ([\d.]+) °C)?\./.exec(await pageText(page)) ?? [];
  found.push(
    ...printed('room', 'air now: Humidity', air[1]),
    ...printed('room', 'air now: Temperature', air[2]),
  );
  const days = await cellsOf(page, 'bench-room-chart .twin table');
  for (const head of ['Humidity', 'Temperature']) {
    const last = days.find((cell) => cell.head === head && /\d/.test(cell.text));
    found.push(...printed('days', `air now: ${head}`, last?.text));
  }
  return found;
}

/** Figures of the places around the bench, with the names that they have on the bench, or that their tables give them. */
export async function figuresOfPlaces(page: Page, ids: ReadonlyMap<string, string>): Promise<Printed[]> {
  return [
    ...(await figuresOfReeds(page, ids)),
    ...(await figuresOfCane(page)),
    ...(await figuresOfGaugeAndRoom(page)),
  ];
}
