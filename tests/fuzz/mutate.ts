/** Pieces that break parsers, programs and spreadsheets. */
const PIECES = [
  ...[
    ',',
    ';',
    '\t',
    '"',
    '""',
    '\n',
    '\r',
    '\r\n',
    '\ufeff',
    '\u0000',
    '\u202e',
    '\u2212',
    '\u00a0',
    '\ud800',
  ],
  ...[
    '-',
    '.',
    '1.234',
    '1,234',
    '1e999',
    '-1e-999',
    '4.3',
    '43',
    '99999999999999999999',
    'NaN',
    'Infinity',
    'null',
    'true',
  ],
  ...[
    '__proto__',
    'constructor',
    'prototype',
    'toString',
    '=1+1',
    "'=1",
    '@SUM(A1)',
    '<script>',
    '{{',
    '[[',
    '{"',
    '\\u0000',
    '\\',
  ],
  ...[
    'thickness_mm',
    'repeat',
    'pass,1',
    'reed;X',
    'Blade B',
    'unit;thou',
    'mm from tip',
    'OAL',
    'no-cane',
    'x'.repeat(500),
  ],
];

/** A little more characters than any import may have. */
const HUGE = 2.2e6;

type Random = () => number;
type Mutation = (text: string, random: Random) => string;

const below = (random: Random, limit: number) => Math.floor(random() * limit);

function span(text: string, random: Random): [from: number, to: number] {
  const from = below(random, text.length + 1);
  return [from, Math.min(text.length, from + 1 + below(random, 30))];
}

function lines(text: string, random: Random, change: (all: string[], at: number) => void): string {
  const all = text.split('\n');
  change(all, below(random, all.length));
  return all.join('\n');
}

const MUTATIONS: readonly Mutation[] = [
  (text, random) => {
    const [from, to] = span(text, random);
    return text.slice(0, from) + text.slice(to);
  },
  (text, random) => {
    const [from, to] = span(text, random);
    return text.slice(0, to) + text.slice(from);
  },
  (text, random) => {
    const at = below(random, text.length + 1);
    return text.slice(0, at) + PIECES[below(random, PIECES.length)] + text.slice(at);
  },
  (text, random) => {
    const [from, to] = span(text, random);
    return text.slice(0, from) + PIECES[below(random, PIECES.length)] + text.slice(to);
  },
  (text, random) => {
    const at = below(random, text.length + 1);
    return text.slice(0, at) + String.fromCharCode(below(random, 0x250)) + text.slice(at + 1);
  },
  (text, random) => text.slice(0, below(random, text.length + 1)),
  (text, random) => lines(text, random, (all, at) => all.splice(at, 1)),
  (text, random) => lines(text, random, (all, at) => all.splice(at, 0, all[below(random, all.length)]!)),
  (text, random) => text.replace(/\d/g, (digit) => (random() < 0.02 ? String(below(random, 10)) : digit)),
  (text, random) => text.replaceAll(';', random() < 0.5 ? ',' : '\t'),
];
const RARE: readonly Mutation[] = [
  (text, random) => text.repeat(1 + below(random, Math.ceil(HUGE / (text.length + 1)))),
  (text, random) => {
    const piece = PIECES[below(random, PIECES.length)]!;
    return text + piece.repeat(below(random, HUGE / piece.length));
  },
  (text, random) => text + '['.repeat(below(random, 100_000)),
];
const RARE_SHARE = 1 / 500;

/** A valid file with one to four changes; now and then one that makes it huge. The same for the same random numbers. */
export function mutated(text: string, random: Random): Uint8Array {
  let changed = text;
  for (let i = below(random, 4); i >= 0; i--)
    changed = MUTATIONS[below(random, MUTATIONS.length)]!(changed, random);
  if (random() < RARE_SHARE) changed = RARE[below(random, RARE.length)]!(changed, random);
  const bytes = new TextEncoder().encode(changed);
  if (random() < 0.1 && bytes.length > 0) bytes[below(random, bytes.length)] = below(random, 256);
  return bytes;
}
