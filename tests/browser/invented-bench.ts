import type { LibraryStore } from '../../components/store/library-store.ts';
import { fitForDesk, type DeskFit } from '../../components/bench/desk-fit.ts';
import { inventedReeds } from '../../demo/scenario/invented-reeds.ts';
import { emptyLibrary } from './library.ts';

/** A library of the invented reeds, and a way to fit one of them with what it is set beside. */
export async function inventedBench(): Promise<{
  store: LibraryStore;
  host: HTMLElement;
  idOf: (label: string) => string;
  fit: (label: string) => Promise<DeskFit>;
}> {
  const { store, host } = await emptyLibrary();
  const random = (count: number) => crypto.getRandomValues(new Uint8Array(count));
  await store.keep(inventedReeds(new Date(), random), 'invented');
  const reedOf = (label: string) => store.reeds.find((reed) => reed.label === label)!;
  return {
    store,
    host,
    idOf: (label) => reedOf(label).id,
    fit: (label) => fitForDesk(store, reedOf(label)),
  };
}
