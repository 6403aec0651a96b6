import type { Command } from '../components/frame/commands.ts';
import {
  hrefOf,
  parseRoute,
  PLACE_WORDS,
  PLACES,
  QUESTION_WORDS,
  QUESTIONS,
  type Question,
  type Route,
} from '../components/frame/routes.ts';
import type { LibraryStore } from '../components/store/library-store.ts';
import { reedOfLastTime } from '../src/reed/last-time.ts';
import { thicknessUnitSchema } from '../shared/fields.ts';

/** First keys of the five places behind `g`. */
const PLACE_KEYS = { case: 'c', bench: 'b', cane: 'n', gauge: 'a', room: 'r' } as const;

/** Where the page stands, as the commands need it. */
export interface Page {
  readonly store: LibraryStore | undefined;
  readonly showKeys: () => void;
}

const go = (route: Route) => {
  location.hash = hrefOf(route);
};

function shownReed({ store }: Page) {
  const route = parseRoute(location.hash);
  const reedId = (route.at === 'bench' ? route.reedId : undefined) ?? store?.reeds[0]?.id;
  return reedId === undefined ? {} : { reedId };
}

function ask(page: Page, question: Question): void {
  const shown = parseRoute(location.hash);
  const route = shown.at === 'bench' ? shown : { at: 'bench' as const };
  go({ ...route, ...shownReed(page), question });
}

function stepPass(page: Page, step: number): void {
  // The address moves before the page does: keys pressed quickly count from where it stands.
  const route = parseRoute(location.hash);
  const { reedId } = shownReed(page);
  if (route.at !== 'bench' || !page.store || reedId === undefined) return;
  const passes = page.store.passesOf(reedId);
  const at =
    route.pass === undefined ? passes.length - 1 : passes.findIndex(({ index }) => index === route.pass);
  const next = passes[at + step];
  if (next) go({ at: 'bench', reedId, question: route.question, pass: next.index });
}

/** Of the reed on the bench, or of last time's. */
export function startRound(store: LibraryStore | undefined): void {
  if (!store) return;
  const route = parseRoute(location.hash);
  const { reed, pass, round } = store.snapshot.live;
  const shown = route.at === 'bench' ? route.reedId : undefined;
  const reedId = shown ?? reedOfLastTime(reed, pass, round)?.id;
  if (reedId !== undefined && route.at !== 'round') go({ at: 'round', reedId });
}

export function stepUnit(store: LibraryStore | undefined): void {
  const units = thicknessUnitSchema.options;
  const at = units.indexOf(store?.choices.unit ?? 'hundredths');
  void store?.choose({ unit: units[(at + 1) % units.length]! });
}

/** Everything that a key does, wherever the page stands. */
export function commandsOf(page: Page): readonly Command[] {
  const questions = QUESTIONS.map((question, i) => ({
    keys: [String(i + 1)],
    words: QUESTION_WORDS[question],
    run: () => ask(page, question),
  }));
  const places = PLACES.map((place) => ({
    keys: ['g', PLACE_KEYS[place]],
    words: `To the ${PLACE_WORDS[place].toLowerCase()}`,
    run: () => go(place === 'bench' ? { at: 'bench', question: 'there' } : { at: place }),
  }));
  return [
    ...questions,
    { keys: ['['], words: 'The pass before', run: () => stepPass(page, -1) },
    { keys: [']'], words: 'The pass after', run: () => stepPass(page, 1) },
    ...places,
    { keys: ['r'], words: 'A round of the reed of last time', run: () => startRound(page.store) },
    { keys: ['u'], words: 'The next unit', run: () => stepUnit(page.store) },
    { keys: ['Ctrl+z'], words: 'Undo', run: () => void page.store?.undo() },
    { keys: ['Ctrl+Shift+z'], words: 'Do it again', run: () => void page.store?.redo() },
    { keys: ['/'], words: 'Find a reed', run: () => go({ at: 'find' }) },
    { keys: ['?'], words: 'These keys', run: page.showKeys },
  ];
}
