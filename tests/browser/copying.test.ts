import { expect } from 'chai';
import { Dexie } from 'dexie';
import { copyingIn } from '../../src/ledger/mirror/copying.ts';
import { openBrowserMirror } from '../../src/ledger/mirror/mirror.ts';
import { openLedger } from '../../src/ledger/ledger.ts';

const WORKER = new URL('../../src/ledger/mirror/worker.ts', import.meta.url);
const startsNowhere = () => new Worker(new URL('/nowhere.js', location.href));

/** A mirror with a worker that tells how often it was started. */
async function withWorker(name: string) {
  let started = 0;
  const start = () => {
    started++;
    return new Worker(WORKER, { type: 'module' });
  };
  return { mirror: copyingIn(start, (await openBrowserMirror())!, name), starts: () => started };
}

const REEDS = 52;

/** A library whose second copy is in small pieces. */
async function inPieces(pieces = 4) {
  const mirror = (await openBrowserMirror())!;
  const name = `scattered ${Date.now()}`;
  const ledger = await openLedger({ name });
  const { deviceId } = ledger;
  const drafts = Array.from({ length: REEDS }, (_, n) => ({
    kind: 'reed' as const,
    label: `K-${n}`,
    styleId: 'long',
    state: 'scraping' as const,
    tags: [],
  }));
  const ids = (await ledger.keep(drafts, 'reeds')).steps.map(({ after }) => after.id);
  const each = REEDS / pieces;
  for (let n = 0; n < REEDS; n += each)
    await mirror.copy(ledger, { ids: ids.slice(n, n + each), rounds: [] });
  expect(await mirror.piecesOf(deviceId)).to.equal(pieces);
  const labels = async () =>
    (await mirror.read(deviceId)).documents.flatMap((one) => ('label' in one ? one.label : [])).sort();
  return { name, mirror, ledger, deviceId, labels };
}

describe('a second copy in small pieces', () => {
  it('of one reed each is put together by a worker, and holds what it held', async () => {
    const { name, mirror, ledger, deviceId, labels } = await inPieces(REEDS);
    const before = await labels();
    expect(await mirror.isScattered(deviceId)).to.equal(true);
    const { mirror: working, starts } = await withWorker(name);
    await working.compact(deviceId);
    expect(await mirror.piecesOf(deviceId)).to.equal(1);
    expect(await labels()).to.deep.equal(before);
    expect(starts()).to.equal(1);
    expect(await mirror.isScattered(deviceId)).to.equal(false);
    await mirror.drop(deviceId);
    ledger.close();
  });

  it('is written anew by a worker, and a few changes without one', async () => {
    const { name, mirror, ledger, deviceId, labels } = await inPieces();
    const before = await labels();
    const { mirror: working, starts } = await withWorker(name);
    await working.copy(ledger, 'all');
    expect(await mirror.piecesOf(deviceId)).to.equal(1);
    expect(await labels()).to.deep.equal(before);
    expect(starts()).to.equal(1);
    const [reed] = await ledger.documents('reed');
    await ledger.keep([{ ...reed!, label: 'L-1' }], 'label');
    await working.copy(ledger, { ids: [reed!.id], rounds: [] });
    expect(await labels()).to.include('L-1');
    expect(starts()).to.equal(1);
    await mirror.drop(deviceId);
    ledger.close();
  });

  it('does not count a change that is made while its worker starts, and is not told to it', async () => {
    const { name, mirror, ledger, deviceId } = await inPieces();
    const ids = (await ledger.documents('reed')).map(({ id }) => id);
    const before = (await ledger.portions('all')).count;
    const [reed] = await ledger.documents('reed');
    const kept: Promise<unknown>[] = [];
    const start = () => {
      kept.push(ledger.keep([{ ...reed!, label: 'L-1' }], 'label'));
      return new Worker(WORKER, { type: 'module' });
    };
    await copyingIn(start, mirror, name).copy(ledger, { ids, rounds: [] });
    await Promise.all(kept);
    expect(kept).to.have.length(1);
    expect(await mirror.countOf(deviceId)).to.equal(before);
    await mirror.drop(deviceId);
    ledger.close();
  });

  it('is left as it is by a worker that finds the database cleared away', async () => {
    const { name, mirror, ledger, deviceId, labels } = await inPieces();
    const before = await labels();
    const all = await ledger.portions('all');
    await Dexie.delete(name);
    const { mirror: working } = await withWorker(name);
    // The page has not heard of it yet.
    const error = await working
      .copy({ deviceId, portions: async () => all }, 'all')
      .catch((thrown: unknown) => String(thrown));
    expect(error).to.contain('cleared away');
    expect(await labels()).to.deep.equal(before);
    await mirror.drop(deviceId);
    await Dexie.delete(name);
    ledger.close();
  });

  it('is put together and written here where no worker starts', async () => {
    const { name, mirror, ledger, deviceId, labels } = await inPieces();
    const before = await labels();
    const working = copyingIn(startsNowhere, mirror, name);
    await working.compact(deviceId);
    expect(await mirror.piecesOf(deviceId)).to.equal(1);
    await working.copy(ledger, 'all');
    expect(await labels()).to.deep.equal(before);
    await mirror.drop(deviceId);
    ledger.close();
  });
});
