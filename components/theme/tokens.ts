import { css, unsafeCSS, type CSSResult } from 'lit';
import { PALETTE, ROLES, THEMES, type Theme } from './palette.ts';
import { QUANTITIES, ramp, type Quantity } from './ramp.ts';

const MEDIUM = '(max-width: 1200px)';
const NARROW = '(max-width: 640px)';

type Declarations = readonly (readonly [name: string, value: string])[];

/** `bladeA` as it is written in CSS: `--bench-blade-a`. */
function property(name: string): string {
  return `--bench-${name.replace(/[A-Z]/g, (capital) => `-${capital.toLowerCase()}`)}`;
}

/** CSS name of a band's colour; with `-ink` after it, of a number written on that band. */
export function bandProperty(quantity: Quantity, band: number): string {
  return `--bench-${quantity}-${band}`;
}

function bands(theme: Theme): Declarations {
  return QUANTITIES.flatMap((quantity) =>
    ramp(quantity, theme).bands.flatMap(({ colour, ink }, i): Declarations => {
      const name = bandProperty(quantity, i);
      return [
        [name, colour],
        [`${name}-ink`, ink],
      ];
    }),
  );
}

function look(theme: Theme): Declarations {
  return [
    ['--bench-color-scheme', theme === 'day' ? 'light' : 'dark'],
    ['--bench-theme', theme],
    ...ROLES.map((role) => [property(role), PALETTE[theme][role]] as const),
    ...bands(theme),
  ];
}

const SANS = '"Segoe UI", "Helvetica Neue", "Liberation Sans", "Noto Sans", Arial, system-ui, sans-serif';
const SERIF = '"Iowan Old Style", P052, "Palatino Linotype", Palatino, "Book Antiqua", Georgia, serif';

/** Steps of type as CSS `font` values: `font: var(--bench-font-say)`. One factor, `--bench-scale`, moves them all. */
const TYPE = {
  next: { sizes: [250, 150, 104], line: 0.86, weight: 600, family: 'sans' },
  heard: { sizes: [88, 64, 58], line: 1, weight: 600, family: 'sans' },
  place: { sizes: [56, 36, 25], line: 1.15, weight: 400, family: 'sans' },
  take: { sizes: [46, 46, 46], line: 1, weight: 600, family: 'sans' },
  reed: { sizes: [48, 36, 36], line: 1, weight: 400, family: 'serif' },
  say: { sizes: [21, 19, 19], line: 1.36, weight: 400, family: 'serif' },
  aside: { sizes: [17, 17, 17], line: 1.42, weight: 400, family: 'serif' },
  head: { sizes: [15, 15, 15], line: 1.3, weight: 600, family: 'sans' },
  body: { sizes: [15, 15, 15], line: 1.45, weight: 400, family: 'sans' },
  table: { sizes: [14.5, 14.5, 14.5], line: 1.45, weight: 400, family: 'sans' },
  caption: { sizes: [13, 13, 13], line: 1.4, weight: 400, family: 'sans' },
} as const;

function type(width: 0 | 1 | 2): Declarations {
  return Object.entries(TYPE).map(([step, { sizes, line, weight, family }]) => [
    property(`font-${step}`),
    `${weight} calc(${sizes[width]}px * var(--bench-scale)) / ${line} var(--bench-${family})`,
  ]);
}

const SPACES = [4, 8, 12, 16, 24, 32, 48];

const MEASURES: Declarations = [
  ['--bench-sans', SANS],
  ['--bench-serif', SERIF],
  ['--bench-scale', '1'],
  ...SPACES.map((px, i) => [`--bench-space-${i + 1}`, `${px}px`] as const),
  ['--bench-radius-plate', '2px'],
  ['--bench-radius-control', '3px'],
  ['--bench-radius-button', '4px'],
  ['--bench-radius-key', '5px'],
  ['--bench-radius-case', '6px'],
  ['--bench-touch', '44px'],
];

/** What is swapped for the reader's own system colours. Bands stay: maps are told apart from text by their outline. */
const SYSTEM_COLOURS: Readonly<Record<(typeof ROLES)[number], string>> = {
  paper: 'Canvas',
  plate: 'Canvas',
  sunk: 'Canvas',
  ink: 'CanvasText',
  ink2: 'CanvasText',
  ink3: 'CanvasText',
  rule: 'CanvasText',
  rule2: 'ButtonText',
  focus: 'Highlight',
  bladeA: 'CanvasText',
  bladeB: 'CanvasText',
  favourite: 'CanvasText',
  excess: 'CanvasText',
  lack: 'CanvasText',
  strokes: 'CanvasText',
  stop: 'CanvasText',
};

function block(selector: string, declarations: Declarations): string {
  return `${selector} { ${declarations.map(([name, value]) => `${name}: ${value};`).join(' ')} }`;
}

// Selectors weigh nothing, so that a page's own `:root { --bench-ink: ... }` wins.
const ROOT = ':where(:root)';
const UNCHOSEN = ':where(:root:not([data-theme]))';
const ANY = `:where(:root, [data-theme])`;

const sheet = [
  block(ROOT, [...look('day'), ...MEASURES, ['--bench-page-margin', '28px'], ...type(0)]),
  `@media ${MEDIUM} { ${block(ROOT, [['--bench-page-margin', '20px'], ...type(1)])} }`,
  `@media ${NARROW} { ${block(ROOT, [['--bench-page-margin', '16px'], ...type(2)])} }`,
  `@media (prefers-color-scheme: dark) { ${block(UNCHOSEN, look('dark'))} }`,
  ...THEMES.map((theme) => block(`:where([data-theme='${theme}'])`, look(theme))),
  `@media (prefers-contrast: more) { ${block(ANY, [
    ['--bench-ink2', 'var(--bench-ink)'],
    ['--bench-ink3', 'var(--bench-ink)'],
    ['--bench-rule', 'var(--bench-rule2)'],
  ])} }`,
  `@media (forced-colors: active) { ${block(
    ANY,
    ROLES.map((role) => [property(role), SYSTEM_COLOURS[role]] as const),
  )} }`,
].join('\n');

/**
 * Every token as a custom property: colours (`--bench-ink`), bands of the maps (`--bench-thickness-0`), type
 * (`--bench-font-say`), space (`--bench-space-1` to 7), radii and the least size of a touch target. Follows the system
 * for day and dark; `data-theme="day|dark|lamp"` on the root, or on any element for what is inside it, decides.
 */
export const tokens: CSSResult = css`
  ${unsafeCSS(sheet)}
`;
