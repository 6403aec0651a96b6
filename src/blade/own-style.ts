import type { Floors } from '../../shared/floors.ts';
import type { Zones } from '../../shared/zones.ts';
import { startingStyle, type StyleTemplate } from './starting-styles.ts';

/** What a maker changed of the styles. */
export interface OwnStyles {
  readonly floors: readonly Pick<Floors, 'styleId' | 'floors'>[];
  readonly zones: readonly Pick<Zones, 'styleId' | 'zones'>[];
}

/** The style with this key as the maker has it: its floors and zones in the place of those that it starts with. */
export function ownStyle(key: string, own: OwnStyles): StyleTemplate {
  const start = startingStyle(key);
  const floors = own.floors.find(({ styleId }) => styleId === start.key)?.floors;
  const zones = own.zones.find(({ styleId }) => styleId === start.key)?.zones;
  return { ...start, ...(floors && { floors }), ...(zones && { zones: [...zones] }) };
}
