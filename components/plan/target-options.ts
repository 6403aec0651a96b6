import type { Id } from '../../shared/ids.ts';
import type { Reed } from '../../shared/reed.ts';
import type { Example, Recipe, TargetDocument } from '../../shared/target.ts';
import { USUAL_THICKNESS } from '../../src/blade/usual-thickness.ts';
import type { LibraryStore } from '../store/library-store.ts';
import { favouritesOf } from './follow.ts';

/** Something that a reed can be brought to: kept already, or made when it is chosen. */
export interface TargetOption {
  readonly value: string;
  readonly words: string;
  readonly target?: TargetDocument;
  readonly recipe?: Recipe;
}

/** A reed at a pass that may be an example. */
export interface ExampleOption extends Example {
  readonly label: string;
  readonly words: string;
  /** Marked as a favourite at this pass. */
  readonly favourite: boolean;
  /** The last pass of a reed that is no favourite. */
  readonly isLast: boolean;
}

/** All passes that were read of the reeds of a style, favourites first. */
export function exampleOptions(store: LibraryStore, styleId: string): ExampleOption[] {
  return store.reeds
    .filter((other) => other.styleId === styleId)
    .flatMap((other) => {
      const read = store.passesOf(other.id).filter(({ readingCount }) => readingCount > 0);
      return read.map(({ index }, i): ExampleOption => {
        const favourite = other.favourite?.passIndex === index;
        return {
          reedId: other.id,
          passIndex: index,
          label: other.label,
          favourite,
          isLast: !other.favourite && i === read.length - 1,
          words: `${other.label}, pass ${index}${favourite ? ', favourite' : ''}`,
        };
      });
    })
    .sort((a, b) => Number(b.favourite) - Number(a.favourite));
}

const isSame = (a: Recipe, b: Recipe) => JSON.stringify(a) === JSON.stringify(b);

/** What a reed can be set beside, as the chooser lists it. */
export function targetOptions(store: LibraryStore, reed: Reed): TargetOption[] {
  const [newest] = favouritesOf(store, reed);
  const kept = store.snapshot.live.target.filter(({ styleId }) => styleId === reed.styleId);
  const one = exampleOptions(store, reed.styleId)
    .filter(({ reedId, favourite, isLast }) => reedId !== reed.id && (favourite || isLast))
    .map(({ reedId, passIndex, words }): TargetOption => {
      const recipe: Recipe = { from: 'reeds', examples: [{ reedId, passIndex }] };
      return optionOf(`reed ${reedId}`, words, recipe, kept);
    });
  const usual = USUAL_THICKNESS[reed.styleId] && [
    optionOf('style', 'What is usual for this style (common practice)', { from: 'style' }, kept),
  ];
  const listed = [...one, ...(usual ?? [])];
  const others = kept
    .filter(({ id }) => !listed.some(({ target }) => target?.id === id))
    .map((target) => ({ value: target.id, words: target.name, target }));
  return [
    ...(newest ? [{ value: 'newest', words: `The newest favourite: ${newest.label}` }] : []),
    ...others,
    ...listed,
  ];
}

function optionOf(
  value: string,
  words: string,
  recipe: Recipe,
  kept: readonly TargetDocument[],
): TargetOption {
  const target = kept.find((one) => isSame(one.recipe, recipe));
  return { value, words, recipe, ...(target && { target }) };
}

/** Makes a reed follow a target that is kept, or the newest favourite. */
export function followKept(store: LibraryStore, reedId: Id, targetId: Id | undefined): Promise<boolean> {
  return store.keepLatest(() => {
    const reed = store.reed(reedId);
    return reed ? [{ ...reed, targetId }] : [];
  }, 'what a reed is set beside');
}

/** Keeps a target and makes a reed follow it: one change, undone as one. */
export function followNew(
  store: LibraryStore,
  reedId: Id,
  target: Pick<TargetDocument, 'name' | 'recipe' | 'placing'>,
): Promise<boolean> {
  const id = store.ledger.newId();
  return store.keepLatest(() => {
    const reed = store.reed(reedId);
    if (!reed) return [];
    return [
      { kind: 'target', id, styleId: reed.styleId, ...target },
      { ...reed, targetId: id },
    ];
  }, `the target ${target.name}`);
}
