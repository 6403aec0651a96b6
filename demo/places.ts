import { html, type TemplateResult } from 'lit';
import { PLACE_WORDS, type Route } from '../components/frame/routes.ts';

/** What the page hands to its places. */
interface HandedOn {
  /** Files that reached the page otherwise than through the place for bringing in. */
  readonly handed: readonly File[];
  /** A round was left, or has become a pass. */
  readonly roundLeft: () => void;
}

type RouteAt<At, Any = Route> = Any extends { readonly at: infer Own }
  ? At extends Own
    ? Any
    : never
  : never;

interface PlaceOnPage<At> {
  /** What the window is called there. */
  readonly heading: string;
  /** Its elements, when they are first needed. */
  readonly load: () => Promise<unknown>;
  readonly render: (route: RouteAt<At>, handedOn: HandedOn) => TemplateResult;
}

/** Every place of the page: a new one is a row here, and its address in components/frame/routes.ts. */
const PLACES: { readonly [At in Route['at']]: PlaceOnPage<At> } = {
  case: {
    heading: PLACE_WORDS.case,
    load: () => import('../components/case/case-screen.ts'),
    render: () => html`<bench-case></bench-case>`,
  },
  bench: {
    heading: PLACE_WORDS.bench,
    load: () => import('../components/bench/desk.ts'),
    render: (route) => html`<bench-desk .route=${route}></bench-desk>`,
  },
  cane: {
    heading: PLACE_WORDS.cane,
    load: () => import('../components/cane/cane-screen.ts'),
    render: (route) => html`<bench-cane .route=${route}></bench-cane>`,
  },
  gauge: {
    heading: PLACE_WORDS.gauge,
    load: () => import('../components/gauge/gauge-page.ts'),
    render: () => html`<bench-gauge-page></bench-gauge-page>`,
  },
  room: {
    heading: PLACE_WORDS.room,
    load: () => import('../components/room/room-screen.ts'),
    render: () => html`<bench-room></bench-room>`,
  },
  setup: {
    heading: 'Setup',
    load: () => import('../components/setup/setup-screen.ts'),
    render: () => html`<bench-setup></bench-setup>`,
  },
  'bring-in': {
    heading: 'Bring in',
    load: () => import('../components/bring-in/bring-in.ts'),
    render: (_, { handed }) => html`<bench-bring-in .handed=${handed}></bench-bring-in>`,
  },
  round: {
    heading: 'Round',
    load: () => import('../components/round/reed-round.ts'),
    render: ({ reedId }, { roundLeft }) =>
      html`<bench-reed-round
        .reedId=${reedId}
        @bench-round-put-down=${roundLeft}
        @bench-round-kept=${roundLeft}
      ></bench-reed-round>`,
  },
  rotation: {
    heading: 'Rotation',
    load: () => import('../components/rotation/rotation-screen.ts'),
    render: () => html`<bench-rotation></bench-rotation>`,
  },
  history: {
    heading: 'History',
    load: () => import('../components/history/history-screen.ts'),
    render: ({ reedId }) => html`<bench-history .reedId=${reedId}></bench-history>`,
  },
  find: {
    heading: 'All reeds',
    load: () => import('../components/find/find-screen.ts'),
    render: () => html`<bench-find></bench-find>`,
  },
  alike: {
    heading: 'What good reeds share',
    load: () => import('../components/alike/alike-screen.ts'),
    render: () => html`<bench-alike></bench-alike>`,
  },
  lesson: {
    heading: 'Lesson',
    load: () => import('../components/lesson/lesson-screen.ts'),
    render: ({ reedIds }) => html`<bench-lesson .reedIds=${reedIds}></bench-lesson>`,
  },
  grids: {
    heading: 'Rounds and their stations',
    load: () => import('../components/grids/grids-page.ts'),
    render: () => html`<bench-grids></bench-grids>`,
  },
  practice: {
    heading: 'Zones, floors and habits',
    load: () => import('../components/practice/practice-page.ts'),
    render: () => html`<bench-practice></bench-practice>`,
  },
};

/** The place that a route leads to. */
export function placeAt(route: Route) {
  const { heading, load, render } = PLACES[route.at];
  // The row was found by the route's own name.
  const renderRoute = render as (route: Route, handedOn: HandedOn) => TemplateResult;
  return { heading, load, render: (handedOn: HandedOn) => renderRoute(route, handedOn) };
}
