import { canonicalJson, compareText } from '../canonical.ts';
import { inOrder } from '../merge.ts';
import { slicesOf } from '../slices.ts';
import { NOTHING, PORTION, type WholeLibrary } from '../whole-library.ts';

/** A library in portions that are each soon taken, in its own order; a picture is a portion by itself. */
export function* portionsOf(whole: WholeLibrary, length = PORTION): Generator<WholeLibrary> {
  const { documents, acts, attachments, setAside, notChosen = [], gone = [] } = whole;
  for (const slice of slicesOf(documents, length)) yield { ...NOTHING, documents: slice };
  for (const slice of slicesOf(acts, length)) yield { ...NOTHING, acts: slice };
  for (const slice of slicesOf(notChosen, length)) yield { ...NOTHING, notChosen: slice };
  for (const slice of slicesOf(gone, length)) yield { ...NOTHING, gone: slice };
  for (const slice of slicesOf(setAside, length)) yield { ...NOTHING, setAside: slice };
  for (const picture of attachments) yield { ...NOTHING, attachments: [picture] };
}

/** The library that portions make up. */
export function joined(portions: readonly WholeLibrary[]): WholeLibrary {
  const gone = portions.flatMap((one) => one.gone ?? []);
  return {
    documents: portions.flatMap(({ documents }) => documents),
    acts: portions.flatMap(({ acts }) => acts),
    attachments: portions.flatMap(({ attachments }) => attachments),
    setAside: portions.flatMap(({ setAside }) => setAside),
    notChosen: portions.flatMap(({ notChosen = [] }) => notChosen),
    ...(gone.length > 0 && { gone }),
  };
}

/** The same library in one fixed order. */
export function ordered(whole: WholeLibrary): WholeLibrary {
  return {
    ...inOrder(whole),
    setAside: [...whole.setAside].sort((a, b) => compareText(canonicalJson(a), canonicalJson(b))),
    attachments: [...whole.attachments].sort((a, b) => compareText(a.sha256, b.sha256)),
  };
}

/** A portion in two halves; undefined when it is one record. */
export function halves(portion: WholeLibrary): readonly [WholeLibrary, WholeLibrary] | undefined {
  const { documents, acts, notChosen = [], gone = [] } = portion;
  if (documents.length + acts.length + notChosen.length + gone.length < 2) return undefined;
  const half = <T>(items: readonly T[], first: boolean): readonly T[] => {
    const middle = Math.ceil(items.length / 2);
    return first ? items.slice(0, middle) : items.slice(middle);
  };
  const side = (first: boolean): WholeLibrary => ({
    documents: half(documents, first),
    acts: half(acts, first),
    notChosen: half(notChosen, first),
    gone: half(gone, first),
    attachments: first ? portion.attachments : [],
    setAside: first ? portion.setAside : [],
  });
  return [side(true), side(false)];
}
