import { idSchema, type Id } from '../../shared/ids.ts';

/** The five questions of the bench, in the order of their keys, and what stands beside them. */
export const QUESTIONS = ['there', 'taken', 'even', 'beside', 'next'] as const;
export type Question = (typeof QUESTIONS)[number] | 'notes' | 'read' | 'sheet';

export const QUESTION_WORDS: Readonly<Record<Question, string>> = {
  there: 'There now',
  taken: 'Taken off',
  even: 'Even',
  beside: 'Beside',
  next: 'Next',
  notes: 'Notes and trials',
  read: 'Type readings',
  sheet: 'One page',
};

/** The five places, in the order of the bar. */
export const PLACES = ['case', 'bench', 'cane', 'gauge', 'room'] as const;
export type Place = (typeof PLACES)[number];

export const PLACE_WORDS: Readonly<Record<Place, string>> = {
  case: 'Case',
  bench: 'Bench',
  cane: 'Cane',
  gauge: 'Gauge',
  room: 'Room',
};

/** A place on the bench: which reed, which question, which pass (its index), and which earlier one beside it. */
export interface BenchRoute {
  readonly at: 'bench';
  readonly reedId?: Id;
  readonly question: Question;
  readonly pass?: number;
  readonly before?: number;
}

/** A place among the cane: nothing chosen, a lot, a piece of one, or a shape. */
export interface CaneRoute {
  readonly at: 'cane';
  readonly shown?: { readonly kind: 'lot' | 'piece' | 'shape'; readonly id: Id };
}

/** Where the page stands. The address holds identifiers, never content. */
export type Route =
  | BenchRoute
  | CaneRoute
  | { readonly at: 'round' | 'history'; readonly reedId: Id }
  | LessonRoute
  | { readonly at: (typeof PLAIN)[number] };

/** Two reeds side by side in a lesson: the example, and the one that is worked on. */
export interface LessonRoute {
  readonly at: 'lesson';
  readonly reedIds: readonly Id[];
}

const PLAIN = [
  'case',
  'gauge',
  'room',
  'setup',
  'bring-in',
  'rotation',
  'find',
  'alike',
  'grids',
  'practice',
] as const;

const isId = (text: string | undefined): text is Id => idSchema.safeParse(text).success;
const isQuestion = (text: string | undefined): text is Question =>
  text === 'notes' || text === 'read' || text === 'sheet' || QUESTIONS.some((question) => question === text);
const passNumber = (text: string | undefined) => (/^\d{1,3}$/.test(text ?? '') ? Number(text) : undefined);

/** The address of a route, to stand behind `#`. */
export function hrefOf(route: Route): string {
  if (route.at === 'round' || route.at === 'history') return `#/${route.at}/${route.reedId}`;
  if (route.at === 'lesson') return ['#/lesson', ...route.reedIds].join('/');
  if (route.at === 'cane') return route.shown ? `#/cane/${route.shown.kind}/${route.shown.id}` : '#/cane';
  if (route.at !== 'bench') return `#/${route.at}`;
  const { reedId, question, pass, before } = route;
  if (reedId === undefined) return '#/bench';
  const parts = [reedId, question, ...(pass === undefined ? [] : [pass])];
  if (pass !== undefined && before !== undefined) parts.push(before);
  return `#/bench/${parts.join('/')}`;
}

/** The route of an address; the case for whatever is not one. */
export function parseRoute(hash: string): Route {
  const [at, first, second, third, fourth] = hash.replace(/^#?\/?/, '').split('/');
  if ((at === 'round' || at === 'history') && isId(first)) return { at, reedId: first };
  if (at === 'lesson') return { at, reedIds: [first, second].filter(isId) };
  if (at === 'bench') {
    const question = isQuestion(second) ? second : 'there';
    if (!isId(first)) return { at: 'bench', question };
    const [pass, before] = [passNumber(third), passNumber(fourth)];
    return {
      at: 'bench',
      reedId: first,
      question,
      ...(pass !== undefined && { pass }),
      ...(before !== undefined && { before }),
    };
  }
  if (at === 'cane') {
    const kind = (['lot', 'piece', 'shape'] as const).find((name) => name === first);
    return { at: 'cane', ...(kind && isId(second) && { shown: { kind, id: second } }) };
  }
  return { at: PLAIN.find((place) => place === at) ?? 'case' };
}
