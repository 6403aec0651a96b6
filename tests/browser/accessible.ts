import 'axe-core/axe.min.js';
import type { AxeResults, RunOptions } from 'axe-core';

declare const axe: { run(context: Element, options: RunOptions): Promise<AxeResults> };

const RULES: RunOptions = {
  runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'],
  resultTypes: ['violations'],
  rules: {
    // These judge a whole page, and a test shows one element.
    region: { enabled: false },
    'page-has-heading-one': { enabled: false },
    'landmark-one-main': { enabled: false },
  },
};

/** Fails with one line for each fault that axe finds in an element and its shadow. */
export async function expectAccessible(element: Element): Promise<void> {
  const { violations } = await axe.run(element, RULES);
  const faults = violations.flatMap(({ id, help, nodes }) =>
    nodes.map(({ html, failureSummary }) => `${id}: ${help}\n  ${html}\n  ${failureSummary ?? ''}`),
  );
  if (faults.length > 0) throw new Error(faults.join('\n'));
}
