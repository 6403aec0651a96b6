import { customElement, property } from 'lit/decorators.js';
import type { Blade, Place } from '../../shared/blade.ts';
import { differenceWords } from '../../src/answers/difference-words.ts';
import { zonesAt, type FittedReed, type ReedAtPass } from '../../src/answers/fitted-reed.ts';
import type { Point } from '../../src/numerics/polygon.ts';
import type { ClipPreview } from '../../src/plan/clip-preview.ts';
import type { ExcessMap } from '../../src/plan/excess.ts';
import type { MadePlan } from '../../src/plan/make-plan.ts';
import type { Step } from '../../src/plan/step.ts';
import { numberText, UNIT_WORDS, withUnit } from '../../src/words/format.ts';
import type { Plate } from '../bench/plate-data.ts';
import type { PlateSheet } from '../bench/plate-sheet.ts';
import { lastResult } from '../last-result.ts';
import type { BladeMapData, OutlinePoint } from '../map/map-data.ts';
import { ReedPlate } from '../reed/reed-plate.ts';
import { TARGET_ENDS, targetKey, targetPlate } from './target-plate.ts';

const STROKES_KEY = { mark: 'next-strokes', words: 'next strokes' } as const;
/** The body shows what stands over the floor and the strokes alone. */
const BODY_KEY = [
  { mark: 'painted', words: 'scrape here, and only here' },
  { mark: 'lozenge', words: 'near its floor: leave it' },
] as const;

const outlineOf = (outline: readonly Point[]): OutlinePoint[] =>
  outline.map(([fromTipMm, across]) => ({ fromTipMm, across }));

/** Under a clip the map moves up with the cane: what would be cut off is bare. */
const moved = ({ maps, clipMm }: ClipPreview) =>
  Object.fromEntries(
    Object.entries(maps).map(([blade, map]): [string, ExcessMap] => [
      blade,
      { ...map, ysMm: map.ysMm.map((y) => y + clipMm) },
    ]),
  );

/** What is over, with the strokes of a step; or what would be over after a clip. */
function planned(
  { benched, pass }: ReedAtPass,
  made: MadePlan,
  step: Step | undefined,
  clipped: ClipPreview | undefined,
) {
  const maps = clipped ? moved(clipped) : made.excess;
  const plate: Partial<Record<Blade, BladeMapData>> = { ...targetPlate(benched, pass, maps) };
  for (const { blade, outlines } of (!clipped && step?.parts) || [])
    plate[blade] = { ...plate[blade]!, nextStrokes: outlines.map(outlineOf) };
  return { maps, plate: plate as Plate };
}

/** The blades with what is over and the next strokes, or with what a clip would leave over. */
@customElement('bench-plan-plate')
export class PlanPlate extends ReedPlate {
  private readonly planned = lastResult(
    (benched: FittedReed, pass: number, ...towards: [MadePlan, Step | undefined, ClipPreview | undefined]) =>
      planned({ benched, pass }, ...towards),
  );

  @property({ attribute: false }) made: MadePlan | undefined;
  @property({ attribute: false }) step: Step | undefined;
  /** What a clip would make of it; absent while there is none. */
  @property({ attribute: false }) clipped: ClipPreview | undefined;

  protected override renderReed(at: ReedAtPass) {
    return this.made && this.renderPlate(at, this.sheet(at, this.made));
  }

  private sheet({ benched, pass }: ReedAtPass, made: MadePlan): PlateSheet {
    const { step, clipped, writing } = this;
    const isFlat = this.stance === 'flat';
    const { maps, plate } = this.planned(benched, pass, made, step, clipped);
    const clip = clipped && withUnit(numberText(clipped.clipMm, 2, writing), 'mm');
    const slid = clip ? `, as it would be after a clip of ${clip}` : '';
    return {
      plate,
      quantity: 'difference',
      heading: isFlat ? 'What is over, and the next strokes' : 'The next strokes',
      caption: `${isFlat ? `${benched.reed.label} less` : 'Towards'} ${made.target.name}${slid}, ${UNIT_WORDS[writing.unit].caption}.`,
      label: step ? `Next strokes: ${step.title}` : 'Nothing measurable to take',
      ends: TARGET_ENDS,
      key: isFlat ? [...targetKey(made.target), STROKES_KEY] : BODY_KEY,
      carried: 'strokes',
      ...(clipped && { clipMm: clipped.clipMm }),
      probed: (place: Place) => differenceWords(maps, place, zonesAt(benched, pass), writing),
    };
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-plan-plate': PlanPlate;
  }
}
