// A device of a study: a browser of its own with a profile on disk, in which a maker types.
import { cpSync } from 'node:fs';
import { setTimeout as pause } from 'node:timers/promises';
import { chromium, type BrowserContext, type BrowserContextOptions } from 'playwright-core';
import { BROWSER_ARGS, findHeadless } from '../../scripts/find-browser.mjs';
import type { LibraryStore } from '../../components/store/library-store.ts';
import { watchedPage, type Watched } from '../journeys/launch.ts';
import { enter, goTo } from '../journeys/shared-case.ts';
import { USERS } from '../unit/sharing/small-server.ts';

export type App = HTMLElement & { readonly store: LibraryStore };

/** Runs in the page, before anything of it: a clock that is wrong by so many ms. */
function wrongClock(byMs: number) {
  const Right = Date;
  globalThis.Date = class extends Right {
    constructor(...args: []) {
      if (args.length === 0) super(Right.now() + byMs);
      else super(...args);
    }
    static override now = () => Right.now() + byMs;
  } as DateConstructor;
}

/** Runs in the page: ids of the readings of one value, mm. */
async function readingsOf(thicknessMm: number): Promise<string[]> {
  const { store } = document.querySelector<App>('bench-app' as never)!;
  const [round] = store.snapshot.live.round;
  const acts = round ? await store.ledger.actsOf(round.id) : [];
  return acts.flatMap((one) => (one.act === 'taken' && one.thicknessMm === thicknessMm ? [one.id] : []));
}

/** A maker's device: a browser of its own, that types one value. */
export interface Device extends Watched {
  readonly name: string;
  readonly folder: string;
  readonly context: BrowserContext;
  readonly digits: string;
  readonly isByTouch: boolean;
  /** Every reading that the screen has accepted. */
  readonly accepted: Set<string>;
  /** Labels of reeds that it has made. */
  readonly made: Set<string>;
  /** Requests that a kill has cut, by method. */
  readonly cut: string[];
}

interface Kind {
  /** Where its browser keeps all. */
  readonly folder: string;
  readonly name: string;
  readonly digits: string;
  readonly isByTouch?: boolean;
  /** Its clock is wrong by so many ms. */
  readonly clockMs?: number | undefined;
}

export async function openDevice(url: string, kind: Kind): Promise<Device> {
  const { name, folder, digits, isByTouch = false, clockMs = 0 } = kind;
  const inHand = { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true };
  const options: BrowserContextOptions = { reducedMotion: 'reduce', ...(isByTouch && inHand) };
  const context = await chromium.launchPersistentContext(folder, {
    executablePath: findHeadless(),
    args: BROWSER_ARGS,
    ...options,
  });
  if (clockMs !== 0) await context.addInitScript(wrongClock, clockMs);
  const watched = await watchedPage(context);
  const cut: string[] = [];
  watched.page.on('requestfailed', (request) => {
    const { errorText = '' } = request.failure() ?? {};
    if (!/REFUSED|ABORTED/.test(errorText)) cut.push(request.method());
  });
  await watched.page.goto(url);
  // A page that was copied while much was in it takes its time to open.
  await watched.page.waitForFunction(() => document.querySelector<App>('bench-app' as never)?.store);
  return { ...watched, name, folder, context, digits, isByTouch, accepted: new Set(), made: new Set(), cut };
}

export async function joinCase({ page }: Device, { address }: { readonly address: string }): Promise<void> {
  await goTo(page, 'setup');
  await page.getByRole('button', { name: 'Enter an address' }).click();
  await enter(page, { address }, USERS[0]!);
  await page.getByText('the name and the password are right').waitFor();
  await page.getByRole('button', { name: 'Share this case' }).click();
  await page.getByText('Both sides have the same').waitFor();
}

export async function toRound({ page, isByTouch }: Device, reedId: string): Promise<void> {
  await goTo(page, `round/${reedId}`);
  await page
    .locator(isByTouch ? 'bench-round .pad' : 'bench-round input')
    .first()
    .waitFor();
}

/** Types one reading, by keys or by touch, until the page has kept it. */
export async function typeReading(device: Device): Promise<void> {
  const { page, digits, isByTouch, accepted } = device;
  if (isByTouch) {
    const pad = page.locator('bench-round .pad');
    for (const digit of digits) await pad.getByRole('button', { name: digit, exact: true }).tap();
    await pad.locator('.main-button').tap();
  } else {
    await page.keyboard.type(digits);
    await page.keyboard.press('Enter');
  }
  const until = Date.now() + 60_000;
  for (;;) {
    const now = await page.evaluate(readingsOf, Number(digits) / 100);
    if (now.length > accepted.size) return now.forEach((id) => accepted.add(id));
    if (Date.now() > until) throw new Error(`${device.name}: a reading that was typed is not kept`);
    await pause(50);
  }
}

/** A device and what was copied from it with its browser, both opened again: the copy types something of its own. */
export async function copyOf(
  device: Device,
  url: string,
  { digits, clockMs }: Pick<Kind, 'digits' | 'clockMs'>,
): Promise<readonly [Device, Device]> {
  const { name, folder, isByTouch } = device;
  await device.context.close();
  const copied = `${folder}-copied`;
  cpSync(folder, copied, { recursive: true });
  const again = await openDevice(url, { name, folder, digits: device.digits, isByTouch, clockMs });
  for (const id of device.accepted) again.accepted.add(id);
  for (const label of device.made) again.made.add(label);
  return [
    again,
    await openDevice(url, { name: `${name}, copied`, folder: copied, digits, isByTouch, clockMs }),
  ];
}
