import { expect } from 'chai';
import { openJournal, type Journal } from '../../src/ledger/journal/journal.ts';

const WORKER = new URL('../../src/ledger/journal/worker.ts', import.meta.url);

const openOne = (name: string): Journal => openJournal(new Worker(WORKER, { type: 'module', name }));

/** A terminated worker lets go of its files a moment later. */
async function leftIn(name: string, wanted: number): Promise<readonly string[]> {
  for (;;) {
    const journal = openOne(name);
    const left = await journal.left();
    if (left.length === wanted) {
      await journal.forget(0);
      journal.close();
      return left;
    }
    journal.close();
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
}

describe('the journal in the browser’s private file system', () => {
  it('keeps what two windows append, for the one that opens after them', async () => {
    const name = `test ${Date.now()}`;
    const [one, two] = [openOne(name), openOne(name)];
    await Promise.all([one.append('{"a":1}'), two.append('{"b":2}'), one.append('{"c":3}')]);
    expect([one.trouble(), two.trouble()]).to.deep.equal([undefined, undefined]);
    one.close();
    two.close();
    expect([...(await leftIn(name, 3))].sort()).to.deep.equal(['{"a":1}', '{"b":2}', '{"c":3}']);
    expect(await leftIn(name, 0)).to.deep.equal([]);
  });

  it('says what is wrong when it cannot start, and holds nothing up', async () => {
    const journal = openJournal(new Worker('/no-such-worker.js'));
    await journal.append('{"a":1}');
    expect(journal.trouble()).to.be.a('string');
    journal.close();
  });
});
