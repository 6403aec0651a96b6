import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';

const AXE = readFileSync('node_modules/axe-core/axe.min.js', 'utf8');

const RULES = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
/** What colours can break where all rules were held to the same page in other colours. */
export const CONTRAST = ['color-contrast'];

/** One line for each fault that axe finds on the page, by all its rules or by those named. */
export async function axeFaults(page: Page, runOnly: readonly string[] = RULES): Promise<string[]> {
  await page.evaluate(AXE);
  return page.evaluate(async (runOnly) => {
    const { axe } = window as unknown as {
      axe: {
        run: (
          context: Document,
          options: object,
        ) => Promise<{ violations: { id: string; nodes: { html: string }[] }[] }>;
      };
    };
    const { violations } = await axe.run(document, {
      runOnly,
      resultTypes: ['violations'],
    });
    return violations.flatMap(({ id, nodes }) => nodes.map(({ html }) => `${id}: ${html.slice(0, 160)}`));
  }, runOnly);
}
