// What lint finds only with types at hand; slower, so `npm run lint` uses it, and an editor the plain one.
import tseslint from 'typescript-eslint';
import plain from './eslint.config.js';

export default tseslint.config(
  ...plain,
  {
    files: ['{shared,src,components,demo,tests}/**/*.ts'],
    ignores: ['tests/mutants/**'],
    languageOptions: { parserOptions: { projectService: true, tsconfigRootDir: import.meta.dirname } },
    rules: {
      '@typescript-eslint/no-floating-promises': 'error',
      '@typescript-eslint/no-misused-promises': ['error', { checksVoidReturn: false }],
      '@typescript-eslint/await-thenable': 'error',
      '@typescript-eslint/switch-exhaustiveness-check': [
        'error',
        { considerDefaultExhaustiveForUnions: true },
      ],
    },
  },
  {
    files: ['{shared,src,components,demo}/**/*.ts'],
    rules: { '@typescript-eslint/no-unnecessary-type-assertion': 'error' },
  },
);
