/** Figures: numbers of a fitted reed, each in mm (or mm³, or mm a mm) with its standard uncertainty, k = 1. */
import { InputError } from '../../shared/errors.ts';
import { BLADES, type Blade, type Place } from '../../shared/blade.ts';
import type { Estimate } from '../../shared/estimate.ts';
import type { ReedAtPass } from '../answers/fitted-reed.ts';
import { figuresOf } from '../answers/record/reed-figures.ts';
import type { ReedFigures } from '../answers/record/record.ts';
import type { Balance } from '../figures/zone-figures.ts';
import { estimate, pointFunctional } from '../figures/functional.ts';
import type { Fitted } from './fit.ts';

export { reportReed, figuresById, type ReedReport } from '../report/reed-report.ts';
export type { Balance, Blade, Estimate, Place, ReedFigures };

/**
 * A reed at a pass.
 *
 * @param pass The pass's number as its file has it; the last one when left out.
 * @throws InputError for a pass that the reed does not have.
 */
export function atPass(reed: Fitted, pass?: number): ReedAtPass {
  const numbers = reed.passes.map(({ index }) => index);
  const place = pass === undefined ? numbers.length - 1 : numbers.indexOf(pass);
  if (place < 0) throw new InputError(`pass: must be one of ${numbers.join(', ')}, got ${pass}`);
  return { benched: reed, pass: place };
}

/** Every figure of a reed after a pass, as every screen of the bench shows it; worked out when it is first asked for. */
export const figures = (reed: Fitted, pass?: number): ReedFigures => figuresOf(atPass(reed, pass));

/** The mean thickness of a zone on one blade. */
export interface ZoneMean {
  /** Its name for files, and its title for people. */
  readonly zone: string;
  readonly title: string;
  readonly blade: Blade;
  readonly meanMm: number;
  /** Standard uncertainty, mm: 95 % lies within 1.96 of it. */
  readonly uMm: number;
}

/** The mean thickness of every zone that was read, blade by blade. @param pass As of `atPass`. */
export function zoneMeans(reed: Fitted, pass?: number): ZoneMean[] {
  return figures(reed, pass).zones.flatMap(({ name, title, blades }) =>
    BLADES.flatMap((blade) => {
      const mean = blades[blade];
      return mean ? [{ zone: name, title, blade, meanMm: mean.valueMm, uMm: mean.uMm }] : [];
    }),
  );
}

/** Blade against blade, right against left, side 1 against side 2, for every zone that was read on both blades. */
export function balances(reed: Fitted, pass?: number): ({ readonly zone: string } & Balance)[] {
  return figures(reed, pass).zones.flatMap(({ name, balance }) =>
    balance ? [{ zone: name, ...balance }] : [],
  );
}

/**
 * The thickness at a place.
 *
 * @param place `blade`, `fromTipMm` from the tip at the pass, `across` from -1 to 1 as a share of the half-width.
 * @throws InputError for a place that is not on the blade, or a blade that was never read.
 */
export function thicknessAt(reed: Fitted, place: Place, pass?: number): Estimate {
  const at = atPass(reed, pass);
  if (!reed.model.blades[place.blade]) throw new InputError(`blade: ${place.blade} was never read`);
  return estimate(reed.model, pointFunctional(reed.model, { ...place, pass: at.pass }));
}

/** What came off a zone of a blade. */
export interface ZoneTaken {
  readonly zone: string;
  readonly blade: Blade;
  readonly takenMm: number;
  readonly uMm: number;
}

/**
 * What came off every zone between two passes; zones that were not read in both are left out.
 *
 * @param since The earlier pass; the one before `pass` when left out.
 */
export function taken(reed: Fitted, pass?: number, since?: number): ZoneTaken[] {
  const after = atPass(reed, pass);
  const before = since === undefined ? after.pass - 1 : atPass(reed, since).pass;
  if (before < 0 || before >= after.pass) throw new InputError('since: must be a pass before the other');
  return figuresOf(after)
    .removed(before)
    .rows.flatMap(({ name, blades }) =>
      BLADES.flatMap((blade) => {
        const mean = blades[blade]?.mean;
        return mean ? [{ zone: name, blade, takenMm: mean.valueMm, uMm: mean.uMm }] : [];
      }),
    );
}
