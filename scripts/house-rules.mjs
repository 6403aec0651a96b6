// The rules of this project that no linter has: what may import what, text is text, nothing is fetched.
import { relative, sep } from 'node:path';
import { circleOf } from './circles.mjs';
import { refusal } from './floors.mjs';

const fileOf = ({ cwd, filename }) => relative(cwd, filename).split(sep).join('/');

/** A rule that asks of nodes of some types what is wrong with them. */
const rule = (types, wrongWith) => ({
  meta: { type: 'problem', schema: [] },
  create(context) {
    const visit = (node) => {
      const message = wrongWith(node, context);
      if (message) context.report({ node, message });
    };
    return Object.fromEntries(types.map((type) => [type, visit]));
  },
});

const IMPORTS = [
  'ImportDeclaration',
  'ExportNamedDeclaration',
  'ExportAllDeclaration',
  'ImportExpression',
  'TSImportType',
];

export default {
  meta: { name: 'house' },
  rules: {
    imports: rule(IMPORTS, ({ source }, context) =>
      typeof source?.value === 'string' ? refusal(fileOf(context), source.value) : undefined,
    ),
    'no-circle': rule(['Program'], (_, context) => {
      const way = circleOf(fileOf(context));
      return way.length > 0 ? `Files import each other in a circle: ${way.join(' -> ')}.` : undefined;
    }),
    'zod-whole': rule(['ImportDeclaration'], ({ source, specifiers }) =>
      source.value === 'zod' && specifiers.some(({ imported }) => imported?.name === 'z')
        ? "Write import * as z from 'zod'."
        : undefined,
    ),
    'text-is-text': rule(['AssignmentExpression'], ({ left }) =>
      left.type === 'MemberExpression' && left.property.name === 'innerHTML' ? 'Text is text.' : undefined,
    ),
    'no-fetch': rule(['CallExpression'], ({ callee }) =>
      callee.name === 'fetch' ? 'Nothing is fetched.' : undefined,
    ),
  },
};
