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

const taken = () => Promise.resolve();

/** A worker that says things when it is asked. */
function worker(
  answer: (say: (said: ReadResponse) => void, one: ReadingWorker) => void,
  next: () => void = () => undefined,
) {
  const state = { ended: false };
  const one: ReadingWorker = {
    onmessage: null,
    onerror: null,
    postMessage: ({ job }) => {
      if (job === 'more') next();
      else answer((data) => one.onmessage?.({ data } as MessageEvent<ReadResponse>), one);
    },
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

it('tells how far a worker is, takes one piece after the other, and ends it', async () => {
  const waiting = [...piecesOf(whole)];
  let send: (said: ReadResponse) => void = () => undefined;
  const next = () => {
    const piece = waiting.shift();
    send(piece ? { piece } : { whole: true });
  };
  const { one, state } = worker((say) => {
    send = say;
    say({ share: 0.5 });
    next();
  }, next);
  const [shares, pieces]: [number[], WholeLibrary[]] = [[], []];
  const onProgress = (share: number) => shares.push(share);
  await readerIn(() => one).library(FILE, { onProgress }, async (piece) => {
    // While one is being taken the next one is still with the worker.
    const left = waiting.length;
    await new Promise((resolve) => setTimeout(resolve));
    expect(waiting).toHaveLength(left);
    pieces.push(piece);
  });
  expect(joined(pieces)).toEqual(whole);
  expect(shares).toEqual([0.5]);
  expect(state.ended).toBe(true);
});

it('ends a worker whose piece cannot be taken, with the reason', async () => {
  const [piece] = [...piecesOf(whole)] as [WholeLibrary];
  const { one, state } = worker((say) => say({ piece }));
  const full = () => Promise.reject(new Error('the disk is full'));
  await expect(readerIn(() => one).library(FILE, {}, full)).rejects.toThrow('the disk is full');
  expect(state.ended).toBe(true);
});

it('ends a worker that is given up, and one that is given up before it began', async () => {
  const control = new AbortController();
  const { one, state } = worker(() => control.abort(new Error('given up')));
  const { signal } = control;
  await expect(readerIn(() => one).readings([SHEET], { signal })).rejects.toThrow('given up');
  expect(state.ended).toBe(true);
  const late = worker((say) => say({ whole: true }));
  await expect(readerIn(() => late.one).library(FILE, { signal }, taken)).rejects.toThrow('given up');
  expect(late.state.ended).toBe(true);
});

it('passes on what is wrong with a file, and what a worker came upon', async () => {
  const problems = [{ where: 'file', what: 'It is no library.' }];
  const refusing = worker((say) => say({ problems }));
  const refusal = readerIn(() => refusing.one).library(FILE, {}, taken);
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
  await expect(readerIn(none).library(new Blob(['{']), {}, taken)).rejects.toThrow(FormatError);
});
