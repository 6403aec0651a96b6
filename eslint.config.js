import js from '@eslint/js';
import { configs as lit } from 'eslint-plugin-lit';
import { configs as wc } from 'eslint-plugin-wc';
import globals from 'globals';
import tseslint from 'typescript-eslint';
import { noCircle } from './scripts/circles.mjs';
import { FLOORS } from './scripts/floors.mjs';

const unsafe = [
  { name: 'lit/directives/unsafe-html.js', message: 'Text is text: no markup from data.' },
  { name: 'lit/directives/unsafe-svg.js', message: 'Text is text: no markup from data.' },
  { name: 'lit/directives/style-map.js', message: 'Blocked by the content security policy; use cssVars.' },
];
const only = (owner, ...names) =>
  names.map((name) => ({ group: [name, `${name}/*`], message: `Only ${owner} imports ${name}.` }));
const upward = (...folders) =>
  folders.map((folder) => ({
    group: [`**/${folder}/**`],
    message: 'Imports go down only: demo -> components -> src -> shared.',
  }));

/** Restricts what one layer may import. */
const layer = (files, patterns, ignores = []) => ({
  files,
  ignores,
  rules: { 'no-restricted-imports': ['error', { paths: unsafe, patterns }] },
});

const dexie = only('src/ledger', 'dexie');
const three = only('components/scene', 'three');
const noDom = only('components', 'lit', '@lit', 'three');

/** What one folder of `src` may not import: its own floor, the floors above it, the layers above `src`. */
const onFloor = (folder, floor) => [
  ...upward('components', 'demo'),
  ...noDom,
  ...(folder === 'ledger' ? [] : dexie),
  ...(folder === 'numerics'
    ? [{ regex: '^\\.\\./', message: 'numerics imports nothing from the rest.' }]
    : []),
  {
    regex: `^(\\.\\./)+(index\\.ts$|(${FLOORS.slice(floor)
      .flat()
      .filter((other) => other !== folder)
      .join('|')})/)`,
    message: `src/${folder} stands on floor ${floor} of scripts/floors.mjs and imports from lower floors only.`,
  },
];

/** A function does one thing; a template of many parts, or a kernel that its comment explains, may be twice as long. */
const LONG_FUNCTIONS = [
  'components/alike/turned-form.ts',
  'components/bench/beside.ts',
  'components/bench/desk.ts',
  'components/bench/even.ts',
  'components/bench/read.ts',
  'components/bench/sheet.ts',
  'components/bench/taken-off.ts',
  'components/bench/there-now.ts',
  'components/cane/gouge-drift.ts',
  'components/cane/shape-panel.ts',
  'components/find/find-screen.ts',
  'components/gauge/gauge-connection.ts',
  'components/gauge/gauge-page.ts',
  'components/grids/grid-rows-table.ts',
  'components/grids/grids-page.ts',
  'components/lesson/lesson-card.ts',
  'components/pass-details/pass-details.ts',
  'components/plan/target-chooser.ts',
  'components/practice/own-floors.ts',
  'components/practice/own-habits.ts',
  'components/relief/relief-print.ts',
  'components/rotation/rotation-screen.ts',
  'components/round/reed-round.ts',
  'components/scene/blocks.ts',
  'components/scene/cane-material.ts',
  'components/setup/setup-screen.ts',
  'components/store/model-cache.ts',
  'demo/scenario/invented-reeds.ts',
  'src/answers/fault-words.ts',
  'src/answers/record/reed-figures.ts',
  'src/answers/taken-off.ts',
  'src/cane/gouge-curve.ts',
  'src/figures/zone-figures.ts',
  'src/ledger/bundle/write.ts',
  'src/ledger/database.ts',
  'src/ledger/journal/journal.ts',
  'src/ledger/ledger.ts',
  'src/ledger/mirror/mirroring.ts',
  'src/ledger/open-library.ts',
  'src/reed/assemble.ts',
  'src/report/reed-report.ts',
  'src/rotation/history.ts',
  'src/surface/way-back.ts',
];
const functionsUpTo = (max, files) => ({
  files,
  rules: { 'max-lines-per-function': ['error', { max, skipComments: true, skipBlankLines: true }] },
});

export default tseslint.config(
  { ignores: ['dist', 'dist-package', 'dist-docs', 'node_modules', 'coverage', '.mutants'] },
  js.configs.recommended,
  ...tseslint.configs.strict,
  ...tseslint.configs.stylistic,
  lit['flat/recommended'],
  wc['flat/recommended'],
  {
    languageOptions: { globals: { ...globals.es2023 } },
    rules: {
      '@typescript-eslint/no-non-null-assertion': 'off',
      '@typescript-eslint/consistent-type-definitions': 'off',
      '@typescript-eslint/consistent-indexed-object-style': 'off',
      '@typescript-eslint/prefer-for-of': 'off',
      '@typescript-eslint/no-unused-vars': ['error', { varsIgnorePattern: '^_', argsIgnorePattern: '^_' }],
      'wc/guard-super-call': 'off',
      'no-restricted-syntax': [
        'error',
        {
          selector: "ImportDeclaration[source.value='zod'] ImportSpecifier[imported.name='z']",
          message: "Write import * as z from 'zod'.",
        },
        {
          selector: "AssignmentExpression > MemberExpression[property.name='innerHTML']",
          message: 'Text is text.',
        },
        { selector: "CallExpression[callee.name='fetch']", message: 'Nothing is fetched.' },
      ],
    },
  },
  // The one place that fetches: from the address of a shared case that the maker has entered.
  { files: ['src/sharing/bounded-fetch.ts'], rules: { 'no-restricted-syntax': 'off' } },
  {
    files: ['**/*.mjs', '*.config.{js,ts}', '*.config.mjs', 'tests/**'],
    languageOptions: { globals: globals.node },
  },
  {
    files: ['components/**', 'demo/**', 'tests/browser/**', 'docs/site/**'],
    languageOptions: { globals: globals.browser },
  },
  layer(
    ['shared/**'],
    [...upward('src', 'components', 'demo'), { regex: '^(?!\\.|zod$)', message: 'shared imports zod only.' }],
  ),
  layer(['src/*.ts'], [...upward('components', 'demo'), ...noDom, ...dexie]),
  ...FLOORS.flatMap((folders, floor) =>
    folders.map((folder) => layer([`src/${folder}/**`], onFloor(folder, floor))),
  ),
  layer(['components/**'], [...upward('demo'), ...dexie, ...three], ['components/scene/**']),
  layer(['components/scene/**'], [...upward('demo'), ...dexie, ...only('the other elements', 'lit')]),
  layer(['demo/**'], [...dexie, ...three]),
  {
    files: ['{shared,src,components,demo}/**'],
    plugins: { house: { rules: { 'no-circle': noCircle } } },
    rules: { 'house/no-circle': 'error' },
  },
  functionsUpTo(40, ['{shared,src,components,demo}/**']),
  functionsUpTo(80, LONG_FUNCTIONS),
  // Opens the copies of a library in the order that a crash between any two lines can bear.
  functionsUpTo(90, ['src/ledger/mirror/mirror.ts']),
  {
    files: ['src/**', 'shared/**'],
    rules: {
      'no-restricted-globals': [
        'error',
        ...['window', 'document', 'HTMLElement', 'localStorage', 'customElements'].map((name) => ({
          name,
          message: 'No DOM in src and shared.',
        })),
      ],
    },
  },
  {
    files: ['src/**', 'shared/**'],
    ignores: ['src/ledger/**'],
    rules: {
      'no-restricted-properties': [
        'error',
        { object: 'Math', property: 'random', message: 'Pass random numbers in, so that tests repeat.' },
        { object: 'Date', property: 'now', message: 'Pass the time in, so that tests repeat.' },
      ],
    },
  },
);
