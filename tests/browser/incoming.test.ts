import { waitUntil } from '@open-wc/testing-helpers';
import { expect } from 'chai';
import '../../components/bring-in/bring-in.ts';
import { LibraryStore } from '../../components/store/library-store.ts';
import { readerIn } from '../../src/incoming/reader.ts';
import { writeBundle } from '../../src/ledger/bundle/write.ts';
import { openLedger } from '../../src/ledger/ledger.ts';
import { manyPasses } from '../many-passes.ts';
import { shareLibrary } from './library.ts';
import { until } from './until.ts';
import { libraryText } from '../whole-library.ts';

const WORKER = new URL('../../src/incoming/worker.ts', import.meta.url);

interface Watched {
  readonly root: ShadowRoot;
  readonly store: LibraryStore;
  readonly host: HTMLElement;
  readonly workers: { readonly ended: boolean }[];
}

/** The place for bringing in, as the page has it: with a worker for each file. */
async function page(script = WORKER): Promise<Watched> {
  const workers: { ended: boolean }[] = [];
  const start = () => {
    const worker = new Worker(script, { type: 'module' });
    const state = { ended: false };
    workers.push(state);
    const { terminate } = worker;
    worker.terminate = () => {
      state.ended = true;
      terminate.call(worker);
    };
    return worker;
  };
  const ledger = await openLedger({ name: `incoming ${Date.now()}` });
  const store = await LibraryStore.over(ledger, undefined, { reader: readerIn(start) });
  const host = shareLibrary(store);
  const el = document.createElement('bench-bring-in');
  host.append(el);
  await until(() => el.shadowRoot?.querySelector('textarea'));
  return { root: el.shadowRoot!, store, host, workers };
}

function choose({ root }: Watched, ...files: File[]): void {
  const chosen = new DataTransfer();
  for (const file of files) chosen.items.add(file);
  const input = root.querySelector<HTMLInputElement>('input[type=file]')!;
  input.files = chosen.files;
  input.dispatchEvent(new Event('change'));
}

const answer = ({ root }: Watched) => root.querySelector('bench-bring-library')?.shadowRoot?.textContent;
const buttonIn = (root: ParentNode, words: string) =>
  [...root.querySelectorAll('button')].find((one) => one.textContent?.trim() === words);

/** Whether the page itself, not its worker, looks into a file or splits a long text, until this is called. */
function watchOwnReading() {
  const real = { parse: JSON.parse, bytes: Blob.prototype.arrayBuffer, text: Blob.prototype.text };
  const { stream } = Blob.prototype;
  const seen: string[] = [];
  JSON.parse = (text: string, ...more) => {
    if (text.length > 1e5) seen.push('JSON.parse');
    return real.parse(text, ...more) as unknown;
  };
  const noted = <F extends (...args: never[]) => unknown>(name: string, read: F) =>
    function (this: Blob, ...args: Parameters<F>) {
      seen.push(name);
      return read.apply(this, args);
    } as F;
  Blob.prototype.arrayBuffer = noted('arrayBuffer', real.bytes);
  Blob.prototype.text = noted('text', real.text);
  Blob.prototype.stream = noted('stream', stream);
  return () => {
    JSON.parse = real.parse;
    Object.assign(Blob.prototype, { arrayBuffer: real.bytes, text: real.text, stream });
    return seen;
  };
}

describe('reading in a worker', () => {
  const files = new Map<string, File>();
  before(async () => {
    const whole = manyPasses(1000);
    const text = libraryText(whole);
    expect(text.length).to.be.greaterThan(20e6);
    files.set('JSON', new File([text], 'large.json'));
    files.set('a zipped bundle', new File([(await writeBundle(whole)) as BlobPart], 'large.zip'));
  });

  for (const kind of ['JSON', 'a zipped bundle']) {
    it(`leaves all that reading 20 MB of ${kind} takes to its worker`, async () => {
      const watched = await page();
      const stop = watchOwnReading();
      choose(watched, files.get(kind)!);
      await waitUntil(() => answer(watched)?.includes('2000 things not here yet'), 'read');
      expect(stop()).to.deep.equal([]);
      expect(watched.workers).to.deep.equal([{ ended: true }]);
      watched.host.remove();
    });
  }

  it('shows how much is read, ends its work when it is given up, and leaves nothing behind', async () => {
    const watched = await page();
    const { root, store, workers } = watched;
    choose(watched, files.get('JSON')!);
    await waitUntil(() => (root.querySelector('progress')?.value ?? 0) > 0.1, 'a part is read');
    expect(workers).to.deep.equal([{ ended: false }]);
    buttonIn(root, 'Cancel')!.click();
    await until(() => !root.querySelector('progress'));
    expect(workers).to.deep.equal([{ ended: true }]);
    const { documents } = await store.ledger.readWhole();
    expect([documents.length, store.trouble]).to.deep.equal([0, undefined]);
    expect(answer(watched)).to.equal(undefined);
    watched.host.remove();
  });

  it('keeps all of a file of many portions in the end, and says the same of a broken one as without a worker', async () => {
    const watched = await page();
    choose(watched, new File(['{"format":', ' '.repeat(1e5)], 'broken.json'));
    await until(() => answer(watched)?.includes('the file may be cut off'));
    choose(watched, new File(['reed,blade\n', 'T-1,A\n'.repeat(2e4), '"T-1,A'], 'broken.csv'));
    await until(() =>
      watched.root.textContent?.includes('A quotation mark is opened or closed in the wrong place.'),
    );
    choose(watched, new File([(await writeBundle(manyPasses(300))) as BlobPart], 'portions.zip'));
    await waitUntil(() => answer(watched)?.includes('600 things not here yet'), 'read');
    const library = watched.root.querySelector('bench-bring-library')!;
    buttonIn(library.shadowRoot!, 'Keep these')!.click();
    await waitUntil(() => answer(watched)?.includes('Everything of the file is in the library now.'), 'kept');
    expect(watched.store.reeds).to.have.length(300);
    watched.host.remove();
  });

  it('reads nothing of a file that is too large', async () => {
    const watched = await page();
    const { root } = watched;
    const large = new File(['reed,blade'], 'large.csv');
    Object.defineProperty(large, 'size', { value: 3e6 });
    large.arrayBuffer = () => Promise.reject(new Error('read'));
    choose(watched, large);
    await until(() => root.textContent?.includes('The file has 3.0 MB, more than 2.0 MB. Split it.'));
    choose(watched, ...Array.from({ length: 12 }, (_, i) => new File(['x'.repeat(1.9e6)], `${i}.csv`)));
    await until(() => root.textContent?.includes('They have 22.8 MB together, more than 20.0 MB.'));
    expect([watched.store.trouble, watched.workers.length]).to.deep.equal([undefined, 0]);
    watched.host.remove();
  });

  it('reads on the page when its worker does not start', async () => {
    const watched = await page(new URL('/no-such-worker.js', location.href));
    const stop = watchOwnReading();
    choose(watched, new File(['{"format":', ' '.repeat(1e5)], 'broken.json'));
    await until(() => answer(watched)?.includes('the file may be cut off'));
    expect(stop(), 'what the watch above would see').to.include('JSON.parse');
    choose(watched, new File(['reed,blade\n', 'T-1,A\n'.repeat(2e4), '"T-1,A'], 'broken.csv'));
    await until(() =>
      watched.root.textContent?.includes('A quotation mark is opened or closed in the wrong place.'),
    );
    watched.host.remove();
  });
});
