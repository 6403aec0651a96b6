import { expect, it } from 'vitest';
import { FormatError } from '../../shared/errors.ts';
import { readerIn } from '../../src/incoming/reader.ts';
import { piecesOf, type ReadRequest } from '../../src/incoming/pieces.ts';
import { joined } from '../../src/ledger/bundle/portions.ts';
import type { WholeLibrary } from '../../src/ledger/whole-library.ts';
import { fakeWorker, type FakeWorker } from '../fake-worker.ts';
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

const FILE = new Blob([new Uint8Array(1e5)]);
const SHEET = { name: 'x.csv', bytes: new TextEncoder().encode(`reed\n${' \n'.repeat(5e4)}"`) };

it('puts a library together again from its pieces, none of which is large', () => {
  const pieces = [...piecesOf(whole)];
  expect(joined(pieces)).toEqual(whole);
  expect(Math.max(...pieces.map(({ documents }) => documents.length))).toBeLessThan(50);
});

it('tells how far a worker is, takes one piece after the other, and ends it', async () => {
  let given = 0;
  const { worker, isEnded } = fakeWorker<ReadRequest, undefined, WholeLibrary>(async (_, said) => {
    said.onProgress(0.5);
    for (const piece of piecesOf(whole)) {
      given++;
      await said.give(piece);
    }
    return undefined;
  });
  const [shares, pieces]: [number[], WholeLibrary[]] = [[], []];
  const onProgress = (share: number) => shares.push(share);
  await readerIn(() => worker).library(FILE, { onProgress }, async (piece) => {
    // While one is being taken the next one is still with the worker.
    await new Promise((resolve) => setTimeout(resolve));
    pieces.push(piece);
    expect(given).toBe(pieces.length);
  });
  expect(joined(pieces)).toEqual(whole);
  expect(shares).toEqual([0.5]);
  expect(isEnded()).toBe(true);
});

it('ends a worker whose piece cannot be taken, with the reason', async () => {
  const [piece] = [...piecesOf(whole)] as [WholeLibrary];
  const { worker, isEnded } = fakeWorker<ReadRequest, undefined, WholeLibrary>(async (_, { give }) => {
    await give(piece);
    return undefined;
  });
  const full = () => Promise.reject(new Error('the disk is full'));
  await expect(readerIn(() => worker).library(FILE, {}, full)).rejects.toThrow('the disk is full');
  expect(isEnded()).toBe(true);
});

it('ends a worker that is given up, and starts none for what was given up before', async () => {
  const control = new AbortController();
  const { worker, isEnded, requests } = fakeWorker(() => control.abort(new Error('given up')));
  const { signal } = control;
  await expect(readerIn(() => worker).readings([SHEET], { signal })).rejects.toThrow('given up');
  expect(isEnded()).toBe(true);
  await expect(readerIn(() => worker).library(FILE, { signal }, taken)).rejects.toThrow('given up');
  expect(requests).toHaveLength(1);
});

it('passes on what is wrong with a file, and what a worker came upon', async () => {
  const problems = [{ where: 'file', what: 'It is no library.' }];
  const refusing = fakeWorker(() => Promise.reject(new FormatError(problems)));
  const refusal = readerIn(() => refusing.worker).library(FILE, {}, taken);
  await expect(refusal).rejects.toThrow(FormatError);
  await expect(refusal).rejects.toMatchObject({ problems });
  const failing = fakeWorker(() => Promise.reject(new Error('out of memory')));
  await expect(readerIn(() => failing.worker).readings([SHEET], {})).rejects.toThrow('out of memory');
  const dying = fakeWorker((_, { onProgress }) => {
    onProgress(0.5);
    dying.die('died');
  });
  await expect(readerIn(() => dying.worker).readings([SHEET], {})).rejects.toThrow('died');
});

it('reads here when a worker does not start, or may not', async () => {
  const dead: FakeWorker<ReadRequest> = fakeWorker(() => dead.die(''));
  const forbidden = () => {
    throw new DOMException('The policy forbids it.', 'SecurityError');
  };
  for (const start of [() => dead.worker, forbidden])
    expect(await readerIn(start).readings([SHEET], {})).toMatchObject({ outcome: 'refused' });
});

it('starts no worker for what is small', async () => {
  const none = () => {
    throw new Error('started');
  };
  const small = { name: 'x.csv', bytes: new TextEncoder().encode('"') };
  expect(await readerIn(none).readings([small], {})).toMatchObject({ outcome: 'refused' });
  await expect(readerIn(none).library(new Blob(['{']), {}, taken)).rejects.toThrow(FormatError);
});
