// A sheet of 2 x 200 stations with its figures and picture, to be typed into by a benchmark.
import { ContextProvider } from '@lit/context';
import '../../components/bench/read.ts';
import { libraryContext } from '../../components/store/library-controller.ts';
import { LibraryStore } from '../../components/store/library-store.ts';
import { openLedger } from '../../src/ledger/ledger.ts';
import { inventedThicknessMm } from '../../src/gauge-lines/invented-blade.ts';
import { stationsOf } from '../../src/round/round-plans.ts';
import { markWork, startMarking } from './marks.ts';

const ROWS = 40;
const ACROSS = [-0.8, -0.4, 0, 0.4, 0.8];
/** Rows of A that are left to be typed. */
const TYPED_FROM = 20;

const rows = Array.from({ length: ROWS }, (_, row) => ({ fromTipMm: 0.5 + row / 2, across: ACROSS }));
const stations = stationsOf(rows);
const reading = (station: (typeof stations)[number]) => ({
  ...station,
  thicknessMm: Number(inventedThicknessMm(station).toFixed(2)),
  repeat: 0,
  flag: 'ok' as const,
});
const isTyped = ({ blade, fromTipMm }: (typeof stations)[number]) =>
  blade === 'A' && fromTipMm >= rows[TYPED_FROM]!.fromTipMm;

/** Types the readings that are left, each marked in the browser's trace. */
async function typeAll(): Promise<void> {
  const store = await LibraryStore.over(await openLedger({ name: 'typing' }));
  const reedId = store.ledger.newId();
  const pass = { kind: 'pass' as const, reedId, overallLengthMm: 70, threadMm: 46.5, remedies: [] };
  await store.keep(
    [
      {
        kind: 'reed',
        id: reedId,
        label: 'T-1',
        styleId: 'long-scrape',
        state: 'scraping',
        tags: [],
        invented: true,
      },
      { ...pass, index: 0, readings: stations.map(reading) },
      { ...pass, index: 1, readings: stations.filter((station) => !isTyped(station)).map(reading) },
    ],
    'a reed',
  );
  new ContextProvider(document.body, { context: libraryContext, initialValue: store });
  const el = document.createElement('bench-read');
  el.reed = store.reed(reedId)!;
  el.pass = store.passesOf(reedId)[1]!;
  document.body.append(el);
  await el.updateComplete;
  const isReady = () => {
    const live = el.shadowRoot!.querySelector('bench-live-reed');
    return live?.live && !live.refining;
  };
  while (!isReady()) await new Promise((resolve) => setTimeout(resolve, 20));
  const grid = el.shadowRoot!.querySelector('bench-reed-readings')!;
  const live = el.shadowRoot!.querySelector('bench-live-reed')!;
  startMarking();
  // All stations are in the sheet once they are typed; the rows of A that are missing are there from those of B.
  for (let row = TYPED_FROM; row < ROWS; row++) {
    for (let column = 0; column < ACROSS.length; column++) {
      const input = grid.shadowRoot!.querySelector<HTMLInputElement>(
        `input[data-cell="A ${row} ${column}"]`,
      )!;
      input.focus();
      await grid.updateComplete;
      const station = {
        blade: 'A' as const,
        fromTipMm: rows[row]!.fromTipMm,
        across: ACROSS[column]!,
        role: 'station' as const,
      };
      input.value = String(Math.round(100 * inventedThicknessMm(station)));
      input.dispatchEvent(new Event('input', { bubbles: true }));
      await grid.updateComplete;
      await new Promise((resolve) => requestAnimationFrame(() => setTimeout(resolve)));
      const before: unknown = live.live;
      await markWork(async () => {
        input.dispatchEvent(
          new KeyboardEvent('keydown', { key: 'Enter', bubbles: true, composed: true, cancelable: true }),
        );
        await el.updateComplete;
        await grid.updateComplete;
        await live.updateComplete;
        for (const map of live.shadowRoot!.querySelectorAll('bench-blade-map')) await map.updateComplete;
        await live.shadowRoot!.querySelector('bench-figures-table')!.updateComplete;
      });
      if (live.live === before) throw new Error(`nothing moved with ${row}, ${column}`);
      await new Promise((resolve) => setTimeout(resolve, 60));
    }
  }
}

/** What the page offers to the benchmark that drives it. */
export interface BenchTyping {
  readonly typeAll: typeof typeAll;
}

Object.assign(window, { benchTyping: { typeAll } satisfies BenchTyping });
