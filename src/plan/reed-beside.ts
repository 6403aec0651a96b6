import type { Answer } from '../answers/there-now.ts';
import { zonesAt, type ReedAtPass } from '../answers/benched-reed.ts';
import { centreLine, crossing, CROSSINGS_MM } from '../figures/crossing.ts';
import { zoneFigures } from '../figures/zone-figures.ts';
import type { Writing } from '../words/format.ts';
import { notesOn, type Compared, type ComparedZone } from './compare.ts';
import { sayCompared } from './say-compared.ts';

/** One reed beside another, placed from the tip, each zone by its own figures. */
export interface Beside extends Pick<Compared, 'crossings' | 'notes'> {
  readonly rows: readonly Pick<ComparedZone, 'name' | 'title' | 'own' | 'other' | 'difference'>[];
}

/** Compares two reeds, each at a pass, with all zones hung from the tip. */
export function beside(own: ReedAtPass, other: ReedAtPass): Beside {
  const [model, example] = [own.benched.model!, other.benched.model!];
  const zones = zonesAt(own.benched, own.pass);
  const rows = zones.flatMap((zone) => {
    const mine = zoneFigures(model, own.pass, zone).mean;
    const theirs = zoneFigures(example, other.pass, zone).mean;
    return mine && theirs
      ? [
          {
            name: zone.name,
            title: zone.title,
            own: mine,
            other: theirs,
            difference: {
              valueMm: mine.valueMm - theirs.valueMm,
              uMm: Math.hypot(mine.uMm, theirs.uMm),
            },
          },
        ]
      : [];
  });
  const crossings = CROSSINGS_MM.map((thicknessMm) => {
    const mine = crossing(model, own.pass, centreLine(model), thicknessMm);
    const theirs = crossing(example, other.pass, centreLine(example), thicknessMm);
    return { thicknessMm, ...(mine && { own: mine }), ...(theirs && { other: theirs }) };
  });
  return { rows, crossings, notes: notesOn(own, [other]) };
}

/** The answer to "How far from the one I love?" */
export function sayBeside({ rows, ...rest }: Beside, otherLabel: string, writing: Writing): Answer {
  const zones = rows.map((row) => ({ ...row, spreadMm: 0 }));
  return sayCompared({ ...rest, zones, target: { name: otherLabel } }, writing);
}
