import { ascending, group } from 'd3-array';
import { BLADES, type Blade } from '../../shared/blade.ts';
import type { Grid, Station } from '../../shared/grid.ts';
import { placeKey } from './place-words.ts';

/** Positions across at one distance from the tip, on one blade or alike on both. */
export interface GridRow {
  readonly blades: Blade | 'both';
  readonly fromTipMm: number;
  /** Fractions of the half-width, rising. */
  readonly across: readonly number[];
  readonly role: Station['role'];
}

const alike = (a: readonly number[], b: readonly number[]) =>
  a.length === b.length && a.every((value, i) => value === b[i]);

/** One blade's stations, a row for each distance and role. */
function rowsOfBlade(stations: readonly Station[], blade: Blade): GridRow[] {
  const rows = group(
    stations.filter((station) => station.blade === blade),
    ({ fromTipMm, role }) => `${fromTipMm} ${role}`,
  );
  return [...rows.values()].map((row) => ({
    blades: blade,
    fromTipMm: row[0]!.fromTipMm,
    across: row.map(({ across }) => across).sort(ascending),
    role: row[0]!.role,
  }));
}

/** Stations as rows from the tip down; a row that is the same on both blades stands once. */
export function rowsOf(stations: readonly Station[]): GridRow[] {
  const [a, b] = BLADES.map((blade) => rowsOfBlade(stations, blade));
  const isSame = (one: GridRow, other: GridRow) =>
    one.fromTipMm === other.fromTipMm && one.role === other.role && alike(one.across, other.across);
  const both = a!.filter((row) => b!.some((other) => isSame(row, other)));
  const alone = [...a!, ...b!].filter((row) => !both.some((other) => isSame(row, other)));
  return [...both.map((row): GridRow => ({ ...row, blades: 'both' })), ...alone].sort(
    (one, other) => ascending(one.fromTipMm, other.fromTipMm) || ascending(one.blades, other.blades),
  );
}

/** The stations of rows, each place once, A before B. */
export function stationsOfRows(rows: readonly GridRow[]): Station[] {
  const places = BLADES.flatMap((blade) =>
    rows
      .filter(({ blades }) => blades === 'both' || blades === blade)
      .flatMap(({ fromTipMm, across, role }) => across.map((u) => ({ blade, fromTipMm, across: u, role }))),
  );
  return [...new Map(places.map((station) => [placeKey(station), station])).values()];
}

/** The grid's stations with one put at a place, or taken away where there is one. */
export function withStationToggled(
  stations: readonly Station[],
  place: Pick<Station, 'blade' | 'fromTipMm' | 'across'>,
): Grid['stations'] {
  const key = placeKey(place);
  const others = stations.filter((station) => placeKey(station) !== key);
  return others.length < stations.length ? others : [...stations, { ...place, role: 'station' }];
}
