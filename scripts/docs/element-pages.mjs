// A page for each public element, from the description that editors read.

const cell = (text = '') => text.replaceAll('|', '\\|').replaceAll(/\s+/g, ' ').trim();
const table = (title, heads, rows) =>
  rows.length === 0
    ? ''
    : `\n## ${title}\n\n| ${heads.join(' | ')} |\n| ${heads.map(() => '---').join(' | ')} |\n${rows
        .map((row) => `| ${row.map(cell).join(' | ')} |`)
        .join('\n')}\n`;
const quoted = (text) => (text ? `\`${text}\`` : '');

/** What an element is shown with. */
const EXAMPLES = {
  'bench-reed': '<bench-reed src="readings.csv" show="maps zones balance taken relief"></bench-reed>',
  'bench-reed-beside': '<bench-reed-beside src="readings.csv" compare="favourite.csv"></bench-reed-beside>',
  'bench-reed-readings':
    '<bench-reed-readings name="readings" from-tip="1 3 5 8 12" across="-0.8 0 0.8"></bench-reed-readings>',
};

function elementPage({ tagName, description, attributes = [], members = [], events = [], ...rest }) {
  const { slots = [], cssParts = [], cssProperties = [] } = rest;
  const [first, ...more] = description.split('\n\n');
  const plain = members.filter(
    ({ kind, name, attribute, static: isStatic, description: words }) =>
      kind === 'field' && !attribute && !isStatic && words && name !== 'fitted',
  );
  const fitted = members.filter(({ name }) => name === 'fitted');
  const methods = members.filter(({ kind, description: words }) => kind === 'method' && words);
  const example = EXAMPLES[tagName] ?? `<${tagName} src="readings.csv"></${tagName}>`;
  return `# ${tagName}

${first}

\`\`\`html
${example}
\`\`\`

\`\`\`sh
import 'hundredths/elements/${tagName.replace('bench-', '')}.js';
\`\`\`

${more.join('\n\n')}
${table(
  'Attributes',
  ['attribute', 'without it', 'what it is'],
  attributes.map(({ name, default: usual, description: words }) => [quoted(name), quoted(usual), words]),
)}${table(
    'Properties',
    ['property', 'type', 'what it is'],
    [...plain, ...fitted].map(({ name, type, description: words }) => [
      quoted(name),
      quoted(type?.text),
      words,
    ]),
  )}${table(
    'Methods',
    ['method', 'what it does'],
    methods.map(({ name, description: words }) => [quoted(`${name}()`), words]),
  )}${table(
    'Events',
    ['event', 'when'],
    events.map(({ name, description: words }) => [quoted(name), words]),
  )}${table(
    'Slots',
    ['slot', 'what stands in it'],
    slots.map(({ name, description: words }) => [name ? quoted(name) : 'without a name', words]),
  )}${table(
    'Parts',
    ['part', 'what it is'],
    cssParts.map(({ name, description: words }) => [quoted(name), words]),
  )}${table(
    'Custom properties',
    ['property', 'what it is'],
    cssProperties.map(({ name, description: words }) => [quoted(name), words]),
  )}`;
}

/** The page that lists the elements, and a page for each. */
export function elementPages({ modules }) {
  const elements = modules
    .flatMap(({ declarations = [] }) => declarations.filter(({ tagName }) => tagName))
    .sort((a, b) => a.tagName.localeCompare(b.tagName));
  const pages = elements.map((element) => ({
    name: element.tagName,
    title: element.tagName,
    markdown: elementPage(element),
  }));
  const lines = elements.map(
    ({ tagName, description }) =>
      `- [${tagName}](${tagName}.html): ${description.split('\n\n')[0].replaceAll('\n', ' ')}`,
  );
  const markdown = `# The elements

Each is a module of its own, \`hundredths/elements/reed-map.js\` for example; \`hundredths/elements/all.js\` is all of them for a script tag. Those that show a reed share where its readings come from, which pass is shown and how figures are written.

${lines.join('\n')}
`;
  return [{ name: 'elements', title: 'The elements', markdown }, ...pages];
}
