// A maker's way through the bench, in any engine: each step by name. Everything is looked for by what is shown.
import { resolve } from 'node:path';

const SHEET = resolve('tests/samples/passes/sample-plain.csv');
const PATIENCE_MS = 60_000;
const LOOK_MS = 100;

/** In the page: every element, also in the shadow of others; the first that matches and has these words. */
const FIND = `
const every = (root) => [...root.querySelectorAll('*')].flatMap((el) => [el, ...(el.shadowRoot ? every(el.shadowRoot) : [])]);
const wordsOf = (el) => (el.textContent + (el.shadowRoot ? every(el.shadowRoot).map(({ textContent }) => textContent).join(' ') : '')).replace(/\\s+/g, ' ');
const find = (selector, words = '') => every(document).find((el) => el.matches(selector) && wordsOf(el).includes(words));
`;

async function waitUntil(window, condition, what, ...args) {
  const until = Date.now() + PATIENCE_MS;
  while (Date.now() < until) {
    if (await window.run(`${FIND} return Boolean(${condition});`, ...args)) return;
    await new Promise((done) => setTimeout(done, LOOK_MS));
  }
  throw new Error(`${what} did not come`);
}

const waitFor = (window, selector, words = '') =>
  waitUntil(window, 'find(arguments[0], arguments[1])', `${selector} with "${words}"`, selector, words);

async function click(window, selector, words) {
  await waitFor(window, selector, words);
  await window.run(`${FIND} find(arguments[0], arguments[1]).click();`, selector, words);
}

const go = (window, hash) => window.run('location.hash = arguments[0];', hash);
/** What three.js says where there is no WebGL to be had, before the page shows the flat map in place of the relief. */
const NO_WEBGL = /^error: THREE\.WebGLRenderer: .*WebGL/;
const HAS_WEBGL = "document.createElement('canvas').getContext('webgl2') !== null";

async function heardOf(window) {
  const heard = await window.run('return globalThis.heard;');
  const isWithout = heard.some((word) => NO_WEBGL.test(word)) && !(await window.run(`return ${HAS_WEBGL};`));
  return isWithout ? heard.filter((word) => !NO_WEBGL.test(word)) : heard;
}

const QUESTIONS = ['bench-there-now', 'bench-taken-off', 'bench-even', 'bench-beside', 'bench-next'];

/** What an engine may lack, how that is told, and where the page says it. */
const LACKS = [
  {
    has: "'serial' in navigator",
    place: '#/gauge',
    selector: 'bench-gauge-connection',
    words: 'This browser cannot hear a gauge on a cable.',
  },
  {
    has: "'getDirectory' in (navigator.storage ?? {})",
    place: '#/setup',
    selector: 'bench-keeping-state',
    words: 'This browser has no place for a second copy.',
  },
];

/** The step is beyond what the engine's driver can do. */
const NOT_TRIED = 'not tried: its driver cannot print';

/** Each step: its name, and what it does in a window that the address is open in. */
export const STEPS = [
  ['opens', (window) => waitFor(window, 'bench-case', 'Nothing here yet')],
  [
    'imports',
    async (window) => {
      await go(window, '#/bring-in');
      await waitFor(window, 'input[type=file]');
      await window.giveFile(`${FIND} return find('input[type=file]');`, SHEET);
      await waitFor(window, 'bench-bring-in', 'Nothing is kept yet.');
      await click(window, 'button', 'Keep these');
      await click(window, 'a', 'To the bench');
      await waitFor(window, 'h1', 'sample-plain');
    },
  ],
  [
    'answers five questions',
    async (window) => {
      for (const [i, element] of QUESTIONS.entries()) {
        await window.type([String(i + 1)]);
        await waitFor(window, element);
      }
      await window.type(['1']);
      await waitFor(window, 'bench-there-now', '±');
    },
  ],
  [
    'reads a round',
    async (window) => {
      await window.type(['r']);
      await waitFor(window, 'bench-round-start');
      await click(window, 'button', 'Full map');
      await waitFor(window, 'bench-round', '0 of 140');
      for (const digit of ['8', '9', '7']) await window.type([digit, 'Enter']);
      await waitFor(window, 'bench-round', '3 of 140');
    },
  ],
  [
    'finds it after a reload',
    async (window, address) => {
      await window.open(`${address}#/case`);
      await window.run('globalThis.isBefore = true; location.reload();');
      await waitUntil(window, 'globalThis.heard && !globalThis.isBefore', 'the page anew');
      await waitFor(window, 'a', 'Go on with');
    },
  ],
  [
    'prints a page',
    async (window) => {
      const reed = `${FIND} return find('.slots a').getAttribute('href');`;
      await waitFor(window, '.slots a');
      await go(window, (await window.run(reed)).replace('/there', '/sheet'));
      await waitFor(window, 'bench-desk[data-sheet]', 'sample-plain');
      if (!window.print) return NOT_TRIED;
      const printed = await window.print();
      if (printed.subarray(0, 5).toString() !== '%PDF-') throw new Error('no page was printed');
    },
  ],
  [
    'says what it lacks',
    async (window) => {
      for (const { has, place, selector, words } of LACKS) {
        if (await window.run(`return ${has};`)) continue;
        await go(window, place);
        await waitFor(window, selector, words);
      }
    },
  ],
];

/** Goes the way; the console's words since the last opening count as a failure of the step that heard them. */
export async function goTheWay(window, address) {
  await window.open(address);
  const results = [];
  for (const [name, step] of STEPS) {
    try {
      const note = await step(window, address);
      const heard = await heardOf(window);
      results.push({ name, note, trouble: heard.join('; ') });
    } catch (error) {
      results.push({ name, trouble: error.message });
      break;
    }
  }
  return results;
}
