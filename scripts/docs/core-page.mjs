// The reference of the core, from its declarations and their comments.
import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import ts from 'typescript';

const parse = (file) => ts.createSourceFile(file, readFileSync(file, 'utf8'), ts.ScriptTarget.ES2022, true);
const isExported = (statement) =>
  statement.modifiers?.some(({ kind }) => kind === ts.SyntaxKind.ExportKeyword) ?? false;
const namesOf = (statement) =>
  ts.isVariableStatement(statement)
    ? statement.declarationList.declarations.map(({ name }) => name.text)
    : [statement.name?.text];

/** A declaration with its comment, found in a file or where that has it from. */
function find(file, name) {
  const source = parse(file);
  for (const statement of source.statements) {
    if (isExported(statement) && namesOf(statement).includes(name)) return { source, statement };
    if (!ts.isExportDeclaration(statement) || !statement.moduleSpecifier || !statement.exportClause) continue;
    const from = statement.exportClause.elements.find((one) => one.name.text === name);
    if (from) return find(resolved(file, statement), (from.propertyName ?? from.name).text);
  }
  // Brought in to be handed on.
  for (const statement of source.statements) {
    if (!ts.isImportDeclaration(statement)) continue;
    const named = statement.importClause?.namedBindings;
    const from = named && ts.isNamedImports(named) && named.elements.find((one) => one.name.text === name);
    if (from) return find(resolved(file, statement), (from.propertyName ?? from.name).text);
  }
  throw new Error(`${file}: no declaration of ${name}`);
}

const resolved = (file, { moduleSpecifier }) =>
  join(dirname(file), moduleSpecifier.text.replace(/\.js$/, '.d.ts'));

/** Names that a group exports, in their order. */
function namesIn(file) {
  return parse(file).statements.flatMap((statement) => {
    if (isExported(statement)) return namesOf(statement);
    const clause = ts.isExportDeclaration(statement) && statement.exportClause;
    return clause ? clause.elements.map((one) => one.name.text) : [];
  });
}

/** A comment's sentences, and its tags as lines of a list. */
function wordsOf(statement) {
  const [doc] = statement.jsDoc ?? [];
  if (!doc) return '';
  const text = (comment) =>
    typeof comment === 'string' ? comment : (ts.getTextOfJSDocComment(comment) ?? '');
  const tags = (doc.tags ?? []).map((tag) => {
    const name = tag.name ? `\`${tag.name.getText()}\` ` : '';
    const word = { throws: 'Throws ', returns: 'Returns ' }[tag.tagName.text] ?? '';
    const type = tag.typeExpression ? `${tag.typeExpression.getText()} ` : '';
    return `- ${word}${name}${type}${text(tag.comment).replaceAll('\n', ' ')}`;
  });
  return [text(doc.comment), tags.join('\n')].filter(Boolean).join('\n\n');
}

function entry(file, name) {
  const { source, statement } = find(file, name);
  const printed = source.text
    .slice(statement.getStart(source), statement.end)
    .replaceAll(/^export (declare )?/gm, '')
    .trim();
  return `### ${name}\n\n\`\`\`ts\n${printed}\n\`\`\`\n\n${wordsOf(statement)}\n`;
}

/** The title and the first words of a group, from the comment at the head of its source. */
const headOf = (group) => /^\/\*\* (\w+): ([\s\S]*?) \*\//.exec(readFileSync(`src/face/${group}.ts`, 'utf8'));

/** @param {string} folder the built package */
export function corePage(folder) {
  const groups = ['read', 'fit', 'figures', 'plan', 'files'].map((group) => {
    const file = `${folder}/src/face/${group}.d.ts`;
    const [, title, words] = headOf(group);
    const names = [...new Set(namesIn(file))];
    return `## ${title}\n\n${words}\n\n${names.map((name) => entry(file, name)).join('\n')}`;
  });
  const markdown = `# The core

\`import { ... } from 'hundredths'\`. Lengths are in millimetres; \`uMm\` is a standard uncertainty, k = 1.

${groups.join('\n')}`;
  return { name: 'core', title: 'The core', markdown };
}
