import { expect } from 'chai';
import { compactingIn } from '../../src/ledger/mirror/compacting.ts';
import { openBrowserMirror } from '../../src/ledger/mirror/mirror.ts';
import { openLedger } from '../../src/ledger/ledger.ts';

const WORKER = new URL('../../src/ledger/mirror/compact-worker.ts', import.meta.url);

/** A library whose second copy is in many small pieces, one a change. */
async function scattered() {
  const mirror = (await openBrowserMirror())!;
  const ledger = await openLedger({ name: `scattered ${Date.now()}` });
  const { deviceId } = ledger;
  for (let n = 0; n < 52; n++) {
    const draft = {
      kind: 'reed' as const,
      label: `K-${n}`,
      styleId: 'long',
      state: 'scraping' as const,
      tags: [],
    };
    const ids = (await ledger.keep([draft], 'reed')).steps.map(({ after }) => after.id);
    await mirror.add(deviceId, await ledger.portions({ ids, rounds: [] }));
  }
  const labels = async () =>
    (await mirror.read(deviceId)).documents.flatMap((one) => ('label' in one ? one.label : []));
  return { mirror, ledger, deviceId, labels };
}

describe('a second copy in many small pieces', () => {
  it('is put together by a worker, and holds what it held', async () => {
    const { mirror, ledger, deviceId, labels } = await scattered();
    const before = await labels();
    expect(await mirror.isScattered(deviceId)).to.equal(true);
    let started = 0;
    const start = () => {
      started++;
      return new Worker(WORKER, { type: 'module' });
    };
    await compactingIn(start, mirror).compact(deviceId);
    expect(await mirror.piecesOf(deviceId)).to.equal(1);
    expect((await labels()).sort()).to.deep.equal(before.sort());
    expect(started).to.equal(1);
    expect(await mirror.isScattered(deviceId)).to.equal(false);
    await mirror.drop(deviceId);
    ledger.close();
  });

  it('is put together here where no worker starts', async () => {
    const { mirror, ledger, deviceId } = await scattered();
    const start = () => new Worker(new URL('/nowhere.js', location.href));
    await compactingIn(start, mirror).compact(deviceId);
    expect(await mirror.piecesOf(deviceId)).to.equal(1);
    await mirror.drop(deviceId);
    ledger.close();
  });
});
