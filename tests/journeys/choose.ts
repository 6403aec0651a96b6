import type { Page } from 'playwright-core';
import { unfolded } from './every-place.ts';

/** Chooses settings as a maker does, under Setup: by their names, and the words of what is chosen. */
export async function choose(page: Page, wanted: Readonly<Record<string, string>>): Promise<void> {
  await unfolded(page, { name: 'setup', hash: 'setup', ready: 'bench-setup h2' });
  for (const [name, words] of Object.entries(wanted))
    await page.getByLabel(name, { exact: true }).selectOption({ label: words });
}
