import 'fake-indexeddb/auto';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { LibraryStore } from '../../../components/store/library-store.ts';
import { USUAL_CHOICES } from '../../../components/store/choices.ts';
import type { Reed } from '../../../shared/reed.ts';
import type { Draft } from '../../../src/ledger/drafts.ts';
import type { Ledger } from '../../../src/ledger/ledger-face.ts';
import type { Role } from '../../../src/sharing/chosen.ts';
import { readAsGuest } from '../../../src/sharing/guest.ts';
import { openCarrier } from '../../../src/sharing/pouch-carrier.ts';
import { forgetProgress } from '../../../src/sharing/progress.ts';
import { Sharing } from '../../../src/sharing/sharing.ts';
import { openTestLedger, reedDraft, roundDraft } from '../ledger/open-test-ledger.ts';
import { PATIENCE_MS, startSmallServer, USERS, type SmallServer } from './small-server.ts';

let server: SmallServer;
const running: { readonly sharing: Sharing; readonly done: Promise<void> }[] = [];
beforeEach(async () => {
  server = await startSmallServer();
});
afterEach(async () => {
  for (const { sharing } of running) sharing.stop();
  await Promise.all(running.splice(0).map(({ done }) => done));
  await server.close();
});

async function share(ledger: Ledger, name: string, role: Role): Promise<Sharing> {
  const { password } = USERS.find((user) => user.name === name)!;
  const carrier = openCarrier({ address: server.address, name, password });
  const chosen = { role, tags: [], photos: true, notes: true } as const;
  const sharing = new Sharing({ ledger, carrier, chosen, by: name });
  running.push({ sharing, done: sharing.run() });
  await vi.waitFor(() => expect(sharing.state.is).toBe('even'), PATIENCE_MS);
  return sharing;
}

/** Invented. */
const passDraft = (reedId: string): Draft => ({
  kind: 'pass',
  reedId,
  index: 0,
  remedies: [],
  readings: [
    {
      blade: 'A',
      fromTipMm: 5,
      across: 0,
      thicknessMm: 0.46,
      repeat: 0,
      role: 'station',
      flag: 'ok',
    },
  ],
});

async function teach() {
  const teacher = await openTestLedger();
  const [step] = (await teacher.keep([reedDraft('T-1')], 'reed')).steps;
  const reedId = step!.after.id;
  const recipe = { from: 'reeds' as const, examples: [{ reedId, passIndex: 0 }] };
  const target = { kind: 'target', name: 'Concert', styleId: 'long', recipe, placing: 'tip' } as const;
  await teacher.keep([passDraft(reedId), target, roundDraft(reedId)], 'target');
  await teacher.keep([{ kind: 'settings', ...USUAL_CHOICES, decimal: 'comma' }], 'settings');
  const sharing = await share(teacher, 'bench', 'own');
  return { teacher, reedId, sharing };
}

it('lets a guest follow a target and keep reeds of its own, and change nothing of the case', async () => {
  const { teacher, reedId } = await teach();
  const pupil = await openTestLedger();
  await share(pupil, 'pupil', 'guest');
  const store = await LibraryStore.over(pupil);
  store.lent = await readAsGuest(pupil);
  const before = JSON.stringify(await pupil.readWhole());
  const { live } = store.snapshot;
  const [reed, target, round] = [live.reed[0]!, live.target[0]!, live.round[0]!];
  const [pass] = await pupil.passesOf(reedId);
  const recipe = { from: 'style' as const };
  const refused = [
    () => store.keep([{ ...target, recipe }], 'target'),
    () => store.keepLatest(() => [{ ...reed, note: 'mine' }], 'note'),
    () => store.keep([{ ...pass!, readings: [] }], 'pass'),
    () => store.keep([{ ...passDraft(reedId), index: 1 } as Draft], 'pass'),
    () => store.keep([roundDraft(reedId)], 'round'),
    () => store.remove([target.id], 'target'),
    () => store.restore([target.id], 'target'),
    () => store.settle({ ...round, plan: 'Mine' }, [round], 'round'),
  ];
  for (const change of refused) {
    expect(await change()).toBe(false);
    expect(store.trouble?.words).toContain('reads as a guest: it stays as it is there');
  }
  expect(JSON.stringify(await pupil.readWhole())).toBe(before);

  expect(await store.keep([{ ...reedDraft('P-1'), targetId: target.id }], 'reed')).toBe(true);
  const own = store.reeds.find(({ label }) => label === 'P-1')!;
  expect(await store.keep([passDraft(own.id)], 'pass')).toBe(true);
  expect(await store.keep([{ ...own, note: 'mine' } satisfies Reed], 'note')).toBe(true);
  // Another's choices, which say how numbers are written, are none for a guest.
  expect(store.snapshot.live.settings).toEqual([]);
  expect(await store.choose({ decimal: 'point' })).toBe(true);
  expect((await teacher.read()).live.reed).toHaveLength(1);
  store.close();
});

it('follows what changes in the case, and gives it free when it is left', async () => {
  const { teacher, reedId } = await teach();
  const pupil = await openTestLedger();
  const sharing = await share(pupil, 'pupil', 'guest');
  await teacher.keep([{ ...((await teacher.get(reedId)) as Reed), note: 'stiff' }, reedDraft('T-2')], 'note');
  await vi.waitFor(async () => expect((await pupil.read()).live.reed).toHaveLength(2), PATIENCE_MS);
  const ids = (await pupil.read()).live.reed.map(({ id }) => id);
  expect([...(await readAsGuest(pupil))]).toEqual(expect.arrayContaining(ids));
  expect(await pupil.get(reedId)).toMatchObject({ note: 'stiff' });
  sharing.stop();
  await running.pop()!.done;
  await forgetProgress(pupil);
  expect(await readAsGuest(pupil)).toEqual(new Set());
});

it('takes no choices of another maker where a device is one of a class', async () => {
  await teach();
  const pupil = await openTestLedger();
  await share(pupil, 'telephone', 'class');
  const { live } = await pupil.read();
  expect([live.target.length, live.settings.length]).toEqual([1, 0]);
  expect((await readAsGuest(pupil)).size).toBe(0);
});
