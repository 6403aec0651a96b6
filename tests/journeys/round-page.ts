// A page with one round and nothing else, for killing. It tells the console which stations it shows as taken.
import { ContextProvider } from '@lit/context';
import { libraryContext } from '../../components/store/library-controller.ts';
import { LibraryStore } from '../../components/store/library-store.ts';
import '../../components/round/reed-round.ts';
import { openLedger } from '../../src/ledger/ledger.ts';
import { stationsOf } from '../../src/round/round-plans.ts';

const ledger = await openLedger({ name: 'killed' });
const store = await LibraryStore.over(ledger);
if (store.reeds.length === 0) {
  const reedId = ledger.newId();
  const reed = {
    kind: 'reed' as const,
    id: reedId,
    label: 'T-1',
    styleId: 'long',
    state: 'scraping' as const,
  };
  const round = { kind: 'round' as const, reedId, passIndex: 0, plan: 'All there is', about: {} };
  // All on one blade, so that every one is in the picture, and more than will be read.
  const rows = Array.from({ length: 160 }, (_, i) => ({
    fromTipMm: 0.5 + i / 8,
    across: [-0.8, -0.4, 0, 0.4, 0.8],
  }));
  const stations = stationsOf(rows).filter(({ blade }) => blade === 'A');
  await store.keep(
    [
      { ...reed, tags: [], invented: true },
      { ...round, stations, startedAt: ledger.now(), invented: true },
    ],
    'a reed and its round',
  );
}
new ContextProvider(document.body, { context: libraryContext, initialValue: store });
const el = document.createElement('bench-reed-round');
el.reedId = store.reeds[0]!.id;
document.body.append(el);

const told = new Set<string>();
/** Every frame: what the maker can see as taken. */
function tell() {
  const root = el.shadowRoot?.querySelector('bench-round')?.shadowRoot;
  const taken = [...(root?.querySelectorAll('aside [data-is="taken"]') ?? [])];
  const fresh = taken.map((mark) => mark.getAttribute('data-key') ?? '').filter((key) => !told.has(key));
  for (const mark of fresh) told.add(mark);
  if (fresh.length > 0) console.debug(`taken ${JSON.stringify(fresh)}`);
  if (root?.activeElement) document.documentElement.dataset['ready'] = 'true';
  requestAnimationFrame(tell);
}
tell();
