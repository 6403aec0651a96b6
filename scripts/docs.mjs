// Makes the site of documentation: npm run docs. Static pages that work offline, from docs/site, the comments of the public
// elements and of the core, and the built package.
import { cpSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import { marked } from 'marked';
import { isUpToDate } from './built-from.mjs';
import { corePage } from './docs/core-page.mjs';
import { elementPages } from './docs/element-pages.mjs';
import { blockView, escaped } from './docs/blocks.mjs';
import { packageSizes } from './package-size.mjs';
import { buildPackage, PACKAGE } from './package.mjs';
import { runPlainly } from './plain-error.mjs';

export const DOCS = 'dist-docs';
const SOURCES = 'docs/site';
const SAMPLES = 'tests/samples/scenario';

/** The invented readings that examples name. */
export const READINGS = {
  'readings.csv': `${SAMPLES}/m-142.csv`,
  'favourite.csv': `${SAMPLES}/k-117.csv`,
  'swapped.csv': `${SAMPLES}/m-142-swapped.csv`,
  'clip-not-entered.csv': `${SAMPLES}/m-142-clip-not-entered.csv`,
  'broken.csv': 'docs/site/broken.csv',
};

/** Pages written by hand, in the order in which they stand in the list of pages. */
export const WRITTEN = [
  'index',
  'tutorial',
  'files',
  'gauges',
  'uncertainty',
  'registration',
  'zones',
  'examples',
  'mathematics',
  'benchmarks',
];

const POLICY =
  "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; connect-src 'self'; worker-src 'self'; base-uri 'none'; form-action 'none'";

const titleOf = (markdown) => /^# (.*)$/m.exec(markdown)[1];
const anchor = (text) =>
  text
    .toLowerCase()
    .replaceAll(/[^\p{L}\p{N}]+/gu, '-')
    .replaceAll(/^-|-$/g, '');

marked.use({
  renderer: {
    code: ({ text, lang = '' }) => blockView(lang, text),
    heading({ tokens, depth }) {
      const words = this.parser.parseInline(tokens);
      return `<h${depth} id="${anchor(words.replaceAll(/<[^>]*>/g, ''))}">${words}</h${depth}>\n`;
    },
    table(token) {
      const cells = (row, tag) =>
        `<tr>${row.map(({ tokens }) => `<${tag}>${this.parser.parseInline(tokens)}</${tag}>`).join('')}</tr>`;
      const body = token.rows.map((row) => cells(row, 'td')).join('\n');
      return `<div class="scroll" tabindex="0"><table><thead>${cells(token.header, 'th scope="col"').replaceAll('</th scope="col">', '</th>')}</thead><tbody>${body}</tbody></table></div>\n`;
    },
  },
});

/** The list of pages, the one that is shown marked. */
function navigation(pages, current) {
  const item = ({ name, title, below = [] }) =>
    `<li><a href="${name}.html"${name === current ? ' aria-current="page"' : ''}>${escaped(title)}</a>${below.length > 0 ? `<ul>${below.map(item).join('')}</ul>` : ''}</li>`;
  return `<nav aria-label="Pages"><ul>${pages.map(item).join('\n')}</ul></nav>`;
}

const pageOf = ({ name, title, markdown }, pages) => `<!doctype html>
<html lang="en">
  <head>
    <meta charset="utf-8" />
    <meta name="viewport" content="width=device-width, initial-scale=1" />
    <meta http-equiv="Content-Security-Policy" content="${POLICY}" />
    <title>${escaped(title)} · Hundredths</title>
    <link rel="icon" href="data:," />
    <link rel="stylesheet" href="site.css" />
    <script type="module" src="elements/all.js"></script>
    <script type="module" src="live.js"></script>
  </head>
  <body>
    ${navigation(pages, name)}
    <main>
${marked.parse(markdown)}
    </main>
  </body>
</html>
`;

async function sizesTable() {
  const rows = (await packageSizes(PACKAGE)).map(
    ({ name, value, limit }) => `| ${name} | ${value.toFixed(0)} | ${limit} |`,
  );
  return ['| entry, gzip | KiB | ceiling |', '| --- | ---: | ---: |', ...rows].join('\n');
}

/** @returns {Promise<string[]>} names of the pages */
export async function buildDocs() {
  if (!isUpToDate(PACKAGE)) await buildPackage();
  rmSync(DOCS, { recursive: true, force: true });
  mkdirSync(DOCS);
  const sizes = await sizesTable();
  const written = WRITTEN.map((name) => {
    const markdown = readFileSync(`${SOURCES}/${name}.md`, 'utf8').replace(/^SIZES$/m, sizes);
    return { name, title: titleOf(markdown), markdown };
  });
  const [list, ...elements] = elementPages(
    JSON.parse(readFileSync(`${PACKAGE}/custom-elements.json`, 'utf8')),
  );
  const core = corePage(PACKAGE);
  const pages = [...written, { ...list, below: elements }, core];
  for (const page of [...written, list, ...elements, core])
    writeFileSync(`${DOCS}/${page.name}.html`, pageOf(page, pages));
  for (const name of ['site.css', 'live.js']) cpSync(`${SOURCES}/${name}`, `${DOCS}/${name}`);
  for (const [name, from] of Object.entries(READINGS)) cpSync(from, `${DOCS}/${name}`);
  cpSync(`${PACKAGE}/elements`, `${DOCS}/elements`, {
    recursive: true,
    filter: (path) => !path.endsWith('.map'),
  });
  return [...written, list, ...elements, core].map(({ name }) => name);
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href)
  await runPlainly(async () => {
    const names = await buildDocs();
    console.log(
      `${names.length} pages in ${DOCS}/; serve the folder, for example: npx vite preview --outDir ${DOCS}`,
    );
    return 0;
  });
