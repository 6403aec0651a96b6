import type { Page } from 'playwright-core';
import type { LibraryStore } from '../../components/store/library-store.ts';
import type { User } from '../../scripts/home/protocol.mjs';
import { USERS, type SmallServer } from '../unit/sharing/small-server.ts';

export const goTo = (page: Page, place: string) => page.evaluate((at) => (location.hash = `#/${at}`), place);

/** Enters an address, a name and a password in Setup, and tries them. */
export async function enter(
  page: Page,
  { address }: Pick<SmallServer, 'address'>,
  { name, password }: User,
): Promise<void> {
  await page.getByLabel('Address of the case').fill(address);
  await page.getByLabel('Name', { exact: true }).fill(name);
  await page.getByLabel('Password').fill(password);
  await page.getByRole('button', { name: 'Try it' }).click();
}

/** Shares, from the form in Setup, until both sides have the same. */
export async function share(page: Page, server: SmallServer, user = USERS[0]!): Promise<void> {
  await enter(page, server, user);
  await page.getByText('the name and the password are right').waitFor();
  await page.getByRole('button', { name: 'Share this case' }).click();
  await page.getByText('Both sides have the same').waitFor();
}

/** Runs in the page: begins a round of so many places of the first reed. @returns The reed. */
export async function beginRound(places: number): Promise<string> {
  const { store } = document.querySelector<HTMLElement & { readonly store: LibraryStore }>(
    'bench-app' as never,
  )!;
  const reedId = store.reeds[0]!.id;
  const stations = Array.from({ length: places }, (_, i) => {
    return { blade: 'A', fromTipMm: 2 + i / 2, across: 0, role: 'station' } as const;
  });
  const round = { kind: 'round', reedId, passIndex: 4, plan: 'In a row', about: {} } as const;
  await store.keep([{ ...round, stations, startedAt: store.ledger.now() }], 'round');
  return reedId;
}
