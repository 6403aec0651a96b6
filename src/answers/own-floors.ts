import type { FloorTable } from '../../shared/style.ts';
import type { BenchedReed } from './benched-reed.ts';

/** A reed with the maker's own floors in the place of those that its style starts with. */
export function withFloors(benched: BenchedReed, floors: FloorTable | undefined): BenchedReed {
  if (!floors) return benched;
  const { assembled } = benched;
  return { ...benched, assembled: { ...assembled, style: { ...assembled.style, floors } } };
}
