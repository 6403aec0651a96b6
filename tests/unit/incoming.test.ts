import { expect, it } from 'vitest';
import { FormatError } from '../../shared/errors.ts';
import { readerIn, type ReadingWorker } from '../../src/incoming/reader.ts';
import { piecesOf, type ReadResponse } from '../../src/incoming/pieces.ts';
import { joined } from '../../src/ledger/bundle/portions.ts';
import type { WholeLibrary } from '../../src/ledger/whole-library.ts';
import { reedOf } from './ledger/random-libraries.ts';

/** Invented. */
const whole: WholeLibrary = {
  documents: Array.from({ length: 130 }, (_, i) => reedOf(i, {}, '')),
  acts: [],
  attachments: [1, 2].map((n) => ({ sha256: `${n}`, bytes: Uint8Array.of(n) })),
  setAside: [{ of: 'acts', id: 'x', reason: 'It is not an act.', record: 1 }],
  notChosen: [{ at: '2026-03-01T09:00:00+01:00', side: reedOf(1, {}, 'other') }],
};

/** A worker that says things when it is asked. */
function worker(answer: (say: (said: ReadResponse) => void, one: ReadingWorker) => void) {
  const state = { ended: false };
  const one: ReadingWorker = {
    onmessage: null,
    onerror: null,
    postMessage: () => answer((data) => one.onmessage?.({ data } as MessageEvent<ReadResponse>), one),
    terminate: () => (state.ended = true),
  };
  return { one, state };
}

const FILE = new Blob([new Uint8Array(1e5)]);
const SHEET = { name: 'x.csv', bytes: new TextEncoder().encode(`reed\n${' \n'.repeat(5e4)}"`) };

it('puts a library together again from its pieces, none of which is large', () => {
  const pieces = [...piecesOf(whole)];
  expect(joined(pieces)).toEqual(whole);
  expect(Math.max(...pieces.map(({ documents }) => documents.length))).toBeLessThan(50);
});

it('tells how far a worker is, gives what it made, and ends it', async () => {
  const { one, state } = worker((say) => {
    say({ share: 0.5 });
    for (const piece of piecesOf(whole)) say({ piece });
    say({ whole: true });
  });
  const shares: number[] = [];
  const library = await readerIn(() => one).library(FILE, {
    onProgress: (share) => shares.push(share),
  });
  expect(library).toEqual(whole);
  expect(shares).toEqual([0.5]);
  expect(state.ended).toBe(true);
});

it('ends a worker that is given up, and one that is given up before it began', async () => {
  const control = new AbortController();
  const { one, state } = worker(() => control.abort(new Error('given up')));
  const { signal } = control;
  await expect(readerIn(() => one).readings([SHEET], { signal })).rejects.toThrow('given up');
  expect(state.ended).toBe(true);
  const late = worker((say) => say({ whole: true }));
  await expect(readerIn(() => late.one).library(FILE, { signal })).rejects.toThrow('given up');
  expect(late.state.ended).toBe(true);
});

it('passes on what is wrong with a file, and what a worker came upon', async () => {
  const problems = [{ where: 'file', what: 'It is no library.' }];
  const refusing = worker((say) => say({ problems }));
  const refusal = readerIn(() => refusing.one).library(FILE, {});
  await expect(refusal).rejects.toThrow(FormatError);
  await expect(refusal).rejects.toMatchObject({ problems });
  const failing = worker((say) => say({ failed: 'out of memory' }));
  await expect(readerIn(() => failing.one).readings([SHEET], {})).rejects.toThrow('out of memory');
  const dying = worker((say, { onerror }) => {
    say({ share: 0.5 });
    onerror?.({ message: 'died' } as ErrorEvent);
  });
  await expect(readerIn(() => dying.one).readings([SHEET], {})).rejects.toThrow('died');
});

it('reads here when a worker does not start', async () => {
  const { one } = worker((_, { onerror }) => onerror?.({ message: '' } as ErrorEvent));
  expect(await readerIn(() => one).readings([SHEET], {})).toMatchObject({
    outcome: 'refused',
  });
});

it('starts no worker for what is small', async () => {
  const none = () => {
    throw new Error('started');
  };
  const small = { name: 'x.csv', bytes: new TextEncoder().encode('"') };
  expect(await readerIn(none).readings([small], {})).toMatchObject({ outcome: 'refused' });
  await expect(readerIn(none).library(new Blob(['{']), {})).rejects.toThrow(FormatError);
});
