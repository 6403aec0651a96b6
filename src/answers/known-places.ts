import { BLADES, type Place } from '../../shared/blade.ts';
import type { Pass } from '../../shared/pass.ts';
import type { Question, Round } from '../../shared/round.ts';
import { BLEND_ZONES } from '../blade/zone-meanings.ts';
import { placeZones } from '../blade/zones.ts';
import { othersMm2 } from '../family/belongs.ts';
import { stationsIn, toldAt } from '../family/interpolation.ts';
import type { Taught } from '../family/of-library.ts';
import { barelyRead, knowingOf } from '../round/knowing-of.ts';
import { combine, isOnBlade } from '../figures/functional.ts';
import { meanOver, zoneArea } from '../figures/zone-mean.ts';
import { shownMm } from '../gauge/correct-readings.ts';
import { assembleReed, type AssembledReed } from '../reed/assemble.ts';
import type { ReadGauge } from '../reed/pass-gauge.ts';
import { fullMap } from '../round/rounds-of-reed.ts';
import type { FamilyKnown, KnownPlaces } from '../round/short-round.ts';
import { fitReed } from '../surface/fit-reed.ts';
import type { Functional } from '../surface/reed-model.ts';
import type { ReedPosterior } from '../surface/reed-posterior.ts';
import { expectedFrom, type Lessons } from './from-library.ts';
import type { UnfittedReed } from './unfitted-reed.ts';

/** What is known of the pass that is to be read. */
export type NextPass = Round['about'] & Pick<Pass, 'index'>;

/**
 * What is known of a reed's places, and of what each question asks, before a pass is read: by the fit itself, from the
 * pass with nothing read in it. A reed of which nothing was read may be of any kind that was learned.
 */
export function knownPlaces(
  { reed, passes, assembled: before }: UnfittedReed,
  next: NextPass,
  gauges: readonly ReadGauge[],
  lessons: Lessons,
): KnownPlaces {
  const opened = { takenAt: '', remedies: [], ...next, readings: [] };
  const documents = { reed, passes: [...passes, opened], gauges, style: before.style };
  const whole = assembleReed(documents);
  const assembled = { ...whole, passes: whole.passes.with(-1, barelyRead(whole.passes.at(-1)!)) };
  const isUnread = before.passes.every(({ readings }) => readings.length === 0);
  const taught = isUnread ? lessons.filter(({ isChanging }) => !isChanging) : [];
  const expected: readonly { readonly of: ReturnType<typeof expectedFrom>; readonly lesson?: Taught }[] = [
    ...taught.map((lesson) => ({ of: expectedFrom(assembled, [lesson]), lesson })),
    { of: expectedFrom(assembled, isUnread ? [] : lessons) },
  ];
  const pass = assembled.passes.length - 1;
  const ways = expected.map((way) => {
    const model = fitReed(way.of.assembled.passes, way.of.assembled.options);
    return { ...way, model, asked: askedOf(model, assembled, pass) };
  });
  const likeliest = ways[0]!;
  const places = fullMap(reed, passes).filter((place) => isOnBlade(likeliest.model, { ...place, pass }));
  const { questions, titles } = likeliest.asked;
  return {
    ...{ places, questions, titles },
    ways: ways.map(({ model, asked: { figures }, of: { fromLibrary }, lesson }) => ({
      ...(lesson && { family: familyAt(lesson, places) }),
      ...(fromLibrary && { reeds: fromLibrary.reeds }),
      knowing: knowingOf(model, places, figures, (mm) => shownMm(mm, {}, assembled.gauges[pass]!)),
    })),
  };
}

function familyAt({ predictive }: Taught, places: readonly Place[]): FamilyKnown {
  const stations = stationsIn(predictive.frame, predictive.stations);
  const rows = places.map((place) => toldAt(stations, place).row);
  return { dof: predictive.dof, othersMm2: othersMm2(predictive, rows) };
}

/** Means of all zones and of their halves on both blades, and their differences: what questions ask for. */
function askedOf(model: ReedPosterior, { style, frame }: AssembledReed, pass: number) {
  const figures: Functional[] = [];
  const questions: Record<Question, number[]> = { zones: [], blend: [], balance: [], plan: [] };
  const titles: string[] = [];
  const ask = (title: string, figure: Functional, ...of: Question[]) => {
    for (const question of of) questions[question].push(figures.length);
    figures.push(figure);
    titles.push(title);
  };
  const geometry = model.passes[pass]!;
  const less = (one: Functional, other: Functional) =>
    combine([
      [1, one],
      [-1, other],
    ]);
  for (const zone of placeZones(style, frame, geometry.overallLengthMm)) {
    const { name, title } = zone;
    const [both, left, right] = (['both', 'left', 'right'] as const).map((side) =>
      zoneArea(zone, geometry, side),
    );
    const means = BLADES.map((blade) => meanOver(model, blade, pass, both!));
    for (const mean of means)
      if (mean) ask(title, mean, 'zones', ...(BLEND_ZONES.includes(name) ? (['blend'] as const) : []));
    if (means[0] && means[1]) ask(title, less(means[0], means[1]), 'balance');
    for (const blade of BLADES) {
      const [l, r] = [left!, right!].map((area) => meanOver(model, blade, pass, area));
      if (!l || !r) continue;
      ask(title, less(r, l), 'balance');
      ask(title, l, 'plan');
      ask(title, r, 'plan');
    }
  }
  return { figures, titles, questions };
}
