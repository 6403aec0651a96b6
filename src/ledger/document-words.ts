import type { Id } from '../../shared/ids.ts';
import type { DocumentKind, LibraryDocument } from '../../shared/library.ts';
import type { Listed } from './snapshot.ts';

/** The label of a reed, wherever it is; nothing when it is gone. */
export type LabelOf = (reedId: Id) => string | undefined;

const KIND_WORDS: Readonly<Record<DocumentKind, readonly [one: string, many: string]>> = {
  reed: ['reed', 'reeds'],
  pass: ['pass', 'passes'],
  round: ['round', 'rounds'],
  trial: ['trial', 'trials'],
  lot: ['lot', 'lots'],
  piece: ['piece of cane', 'pieces of cane'],
  shape: ['shape', 'shapes'],
  air: ['reading of the room', 'readings of the room'],
  engagement: ['engagement', 'engagements'],
  use: ['playing', 'playings'],
  gauge: ['gauge', 'gauges'],
  grid: ['grid', 'grids'],
  style: ['style', 'styles'],
  settings: ['set of choices', 'sets of choices'],
  photo: ['photograph', 'photographs'],
  target: ['target', 'targets'],
  zones: ['drawing of zones', 'drawings of zones'],
  floors: ['table of floors', 'tables of floors'],
  habit: ['row of the table of habits', 'rows of the table of habits'],
  'scrape-plan': ['plan', 'plans'],
};

export const countedKind = (kind: DocumentKind, count: number): string =>
  `${count} ${KIND_WORDS[kind][count === 1 ? 0 : 1]}`;

/** What a document is called in a list: `K-117`, `K-117, pass 3`, `lot C-4`. */
export function documentName(document: LibraryDocument | Listed, labelOf: LabelOf): string {
  const of = (reedId: Id, rest: string) => `${labelOf(reedId) ?? 'a reed that is gone'}, ${rest}`;
  switch (document.kind) {
    case 'reed':
      return document.label;
    case 'pass':
      return of(document.reedId, `pass ${document.index}`);
    case 'round':
      return of(document.reedId, `round of pass ${document.passIndex}`);
    case 'trial':
      return of(document.reedId, `trial of ${document.playedAt.slice(0, 10)}`);
    case 'use':
      return of(document.reedId, `playing of ${document.at.slice(0, 10)}`);
    case 'lot':
      return `lot ${document.code}`;
    case 'piece':
      return `piece of cane ${document.number}`;
    case 'shape':
    case 'gauge':
    case 'grid':
    case 'style':
    case 'target':
      return `${KIND_WORDS[document.kind][0]} ${document.name}`;
    case 'engagement':
      return document.title;
    case 'air':
      return `the room on ${document.at.slice(0, 10)}`;
    case 'photo':
      return labelOf(document.of) === undefined ? 'a photograph' : of(document.of, 'a photograph');
    case 'scrape-plan':
      return of(document.reedId, `plan after pass ${document.afterPass}`);
    case 'floors':
    case 'zones':
      return `${document.kind} of the ${document.styleId} style`;
    case 'habit':
      return `habit: ${document.symptom}`;
    case 'settings':
      return 'the choices in Setup';
  }
}
