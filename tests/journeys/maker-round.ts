import type { Page } from 'playwright-core';
import { inventedMaker } from '../generator/makers.ts';

const MAKER = inventedMaker('steady', 41);
const NEW_REED = 50;
const ACROSS = ['left edge', 'left', 'middle', 'right', 'right edge'];

/** So many reeds of an invented maker, read in full, and one that was not read; two digits go on by themselves. */
export async function keepMaker(page: Page, count: number): Promise<string> {
  const passes = Array.from({ length: count }, (_, k) =>
    MAKER.reed(k).passes[0]!.readings.map(({ blade, fromTipMm, across, thicknessMm }) => ({
      ...{ blade, fromTipMm, across, thicknessMm: Math.round(thicknessMm * 1e4) / 1e4 },
      ...{ repeat: 0, flag: 'ok', role: 'station' },
    })),
  );
  await page.getByRole('button', { name: 'Look at invented reeds' }).waitFor();
  return page.evaluate(async (readings) => {
    interface Store {
      ledger: { newId(): string };
      choices: object;
      snapshot: { live: { settings: object[] } };
      keep(drafts: object[], what: string): Promise<boolean>;
    }
    const { store } = document.querySelector('bench-app') as unknown as { store: Store };
    const reed = (label: string) => ({
      ...{ kind: 'reed', id: store.ledger.newId(), label, styleId: 'long-scrape', state: 'scraping' },
      ...{ tags: [], invented: true },
    });
    const others = readings.map((own, k) => {
      const one = reed(`S-${k + 1}`);
      const pass = { kind: 'pass', reedId: one.id, index: 0, takenAt: '2026-01-01T00:00:00Z' };
      const facts = { overallLengthMm: 70, threadMm: 47, gaugeStepMm: 0.01, remedies: [], invented: true };
      return [one, { ...pass, ...facts, readings: own }];
    });
    const unread = reed('S-new');
    const settings = {
      ...store.snapshot.live.settings[0],
      ...store.choices,
      kind: 'settings',
      takes: 'digits',
    };
    await store.keep([...others.flat(), unread, settings], 'a maker');
    return unread.id;
  }, passes);
}

/** Resolves once the next reading can be typed. */
export const inHand = (page: Page) =>
  page.waitForFunction(
    () =>
      document
        .querySelector('bench-app')
        ?.shadowRoot?.querySelector('bench-reed-round')
        ?.shadowRoot?.querySelector('bench-round')?.shadowRoot?.activeElement?.tagName === 'INPUT',
  );

/** A place that a round asks for. */
export interface AskedPlace {
  /** Of the field that its reading is typed into. */
  readonly label: string;
  readonly blade: string;
  readonly fromTipMm: number;
  /** 0 to 4, from the left. */
  readonly column: number;
}

/** The place that a round asks for now; undefined once it asks for none. */
export async function askedFor(page: Page): Promise<AskedPlace | undefined> {
  const label = await page.locator('bench-round').locator('.figure input').getAttribute('aria-label');
  const [, blade, mm, across] = /^Reading for ([AB]), ([\d.]+)\smm, (.*)$/.exec(label ?? '') ?? [];
  if (!label || !blade) return undefined;
  return { label, blade, fromTipMm: Number(mm), column: ACROSS.indexOf(across!) };
}

/** What the gauge shows there on the reed that was not read, two digits. */
export function readingAt({ blade, fromTipMm, column }: AskedPlace): string {
  const { thicknessMm } = MAKER.reed(NEW_REED).passes[0]!.readings.find(
    (one) =>
      one.blade === blade && one.fromTipMm === fromTipMm && column === Math.round(2 + one.across * 2.5),
  )!;
  return String(Math.round(thicknessMm * 100)).padStart(2, '0');
}
