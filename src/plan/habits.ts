import type { Sign } from '../../shared/habit.ts';

/** A row of the maker's own table: what is heard, where to look, what to try with care, and what may go wrong. */
export interface Habit {
  readonly key: string;
  readonly symptom: string;
  readonly lookAt: string;
  readonly longScrape?: string;
  readonly shortScrape?: string;
  readonly action: string;
  readonly risk?: string;
  /** What in a reed's figures speaks for it; zones that a style has not are passed over. */
  readonly signs?: readonly Sign[];
  /** Whose practice it is, where that is written down. */
  readonly whoSays?: string;
  /** Schools and teachers differ on it; the bench takes no side. */
  readonly contested?: true;
}

const all = (is: Sign['is'], ...zones: readonly string[]): Sign[] => zones.map((zone) => ({ zone, is }));

/**
 * The table that a maker starts with and edits. Common practice, no source; a row that does not fit a maker's school is
 * switched off, not argued with.
 */
export const STARTING_HABITS: readonly Habit[] = [
  {
    key: 'high-peep',
    symptom: 'Only the high peep, no low octave',
    lookAt: 'windows and heart sides over the favourite',
    longScrape: 'windows, 10 to 16 mm',
    shortScrape: 'slope at 6 to 9 mm, flanks',
    action: 'five strokes in each window, all four alike, then crow',
    risk: 'the opening and the pitch drop',
    signs: all('over', 'windows', 'heart-sides', 'slope-lower', 'flanks'),
  },
  {
    key: 'crow-sharp',
    symptom: 'Crow sharp by 20 cents or more',
    lookAt: 'the back, the overall length',
    longScrape: 'windows, then the lower spine',
    shortScrape: 'scrape half a millimetre longer at the catch',
    action: 'take one hundredth of a millimetre off the back, evenly',
    risk: 'only a clip brings it up again',
    signs: all('over', 'windows', 'spine', 'catch'),
  },
  {
    key: 'crow-wild',
    symptom: 'Crow flat, rattling, wild',
    lookAt: 'length of the tip, the heart',
    longScrape: 'tip too long, back too thin',
    shortScrape: 'slope too thin at 5 to 8 mm',
    action: 'clip two tenths of a millimetre, crow, clip one more',
    risk: 'the tip gets short and the response goes',
    signs: all('under', 'heart', 'windows', 'spine', 'slope-upper', 'slope-lower'),
  },
  {
    key: 'no-crow',
    symptom: 'No crow, hard',
    lookAt: 'the opening, the tip edge',
    longScrape: 'tip all over',
    shortScrape: 'tip, the first 2 mm',
    action: 'squeeze the opening; dust the tip, ten strokes',
    risk: 'the edge gets too thin',
    signs: all('over', 'tip'),
  },
  {
    key: 'low-notes-late',
    symptom: 'Low notes late when soft',
    lookAt: 'corners, tip edge, blend',
    longScrape: 'corners and sides of the blend',
    shortScrape: 'sides of the tip, flanks at 2 to 5 mm',
    action: 'dust the corners, five strokes each, towards the corner',
    risk: 'a chipped corner',
    signs: all('over', 'corners', 'blend', 'flanks'),
  },
  {
    key: 'click',
    symptom: 'The attack clicks or spits',
    lookAt: 'a step at the blend, unequal corners',
    longScrape: 'blend',
    shortScrape: 'where tip meets slope',
    action: 'strokes across the step',
    risk: 'a longer tip is less stable',
    signs: [...all('over', 'blend', 'slope-upper'), ...all('uneven', 'corners')],
  },
  {
    key: 'stuffy',
    symptom: 'Stuffy, covered',
    lookAt: 'heart sides, rails near the heart',
    longScrape: 'heart sides, 6 to 9 mm',
    shortScrape: 'flanks, 4 to 8 mm',
    action: 'five strokes on each flank',
    risk: 'depth is lost',
    signs: all('over', 'heart-sides', 'rails', 'flanks'),
  },
  {
    key: 'too-resistant',
    symptom: 'Too resistant everywhere, but a good sound',
    lookAt: 'the whole reed over the favourite',
    longScrape: 'back evenly, then heart',
    shortScrape: 'the whole slope evenly',
    action: 'one hundredth of a millimetre everywhere but the tip',
    risk: 'it goes past the point within a day',
    signs: all('over', 'heart', 'spine', 'windows', 'rails', 'slope-upper', 'slope-lower'),
  },
  {
    key: 'collapses',
    symptom: 'No resistance, collapses when pushed',
    lookAt: 'heart and spine under their floors',
    action: 'clip two or three tenths of a millimetre, a smaller opening, the practice box',
    risk: 'cannot be put back',
    signs: all('under', 'heart', 'spine', 'slope-lower'),
  },
  {
    key: 'notes-sag',
    symptom: 'Notes sag, half-hole and high notes flat',
    lookAt: 'heart centre, spine, opening, a leak',
    longScrape: 'heart or spine thin, opening too large, or a leak',
    shortScrape: 'slope thin at 6 to 9 mm',
    action: 'look for a leak first, then clip two tenths of a millimetre',
    risk: 'sharper low down',
    signs: all('under', 'heart', 'spine', 'slope-lower'),
  },
  {
    key: 'sharp-all-over',
    symptom: 'Sharp all over',
    lookAt: 'blade length, opening',
    longScrape: 'too short, back heavy',
    shortScrape: 'scrape too short',
    action: 'windows by one hundredth of a millimetre, or a lower bark line',
    risk: 'notes begin to sag',
    signs: all('over', 'windows', 'spine', 'rails', 'catch'),
    contested: true,
  },
  {
    key: 'flat-all-over',
    symptom: 'Flat all over',
    lookAt: 'blade length, windows',
    longScrape: 'back thin, tip long',
    shortScrape: 'slope thin, shape wide',
    action: 'clip two tenths of a millimetre, or narrow the sides on fine paper, a little at a time',
    risk: 'narrowing also closes the sound',
    signs: all('under', 'windows', 'spine', 'slope-lower'),
  },
  {
    key: 'bright',
    symptom: 'Bright, buzzing',
    lookAt: 'tip thick in the middle over a thin heart, a short blend',
    longScrape: 'heart centre thin or tip sides heavy',
    shortScrape: 'tip thick',
    action: 'dust the sides of the tip, leave the heart',
    signs: [...all('over', 'tip'), ...all('under', 'heart')],
    contested: true,
  },
  {
    key: 'dull',
    symptom: 'Dull, no ring',
    lookAt: 'corners, tip edge',
    longScrape: 'tip edge thick, blend heavy',
    shortScrape: 'tip edge thick, blend heavy',
    action: 'dust',
    signs: all('over', 'corners', 'tip', 'blend'),
  },
  {
    key: 'too-open',
    symptom: 'Too open',
    lookAt: 'rails, back',
    longScrape: 'rails and windows heavy, hard cane',
    shortScrape: 'catch region heavy',
    action: 'press flat, wet, for ten seconds; three strokes a rail',
    risk: 'it will not come back',
    signs: all('over', 'rails', 'windows', 'catch'),
  },
  {
    key: 'too-closed',
    symptom: 'Too closed',
    lookAt: 'windows under their floor, soft cane',
    action: 'press from the sides in warm water, wire, or clip two tenths of a millimetre',
    risk: 'a crack',
    signs: all('under', 'windows'),
  },
  {
    key: 'two-sounds',
    symptom: 'Two sounds at once, wandering',
    lookAt: 'side difference, a leak',
    longScrape: 'sides unequal at 5 to 12 mm',
    shortScrape: 'flanks unequal',
    action: 'take only from the thick side, on both blades',
    risk: 'the pitch falls',
    signs: all('uneven', 'heart-sides', 'windows', 'rails', 'flanks'),
  },
  {
    key: 'hiss',
    symptom: 'One corner hisses or does not seal',
    lookAt: 'shape, tie, rails',
    action: 'paper the edge, wrap it with fish skin',
    risk: 'width is lost',
    signs: all('uneven', 'rails', 'corners'),
  },
  {
    key: 'dead-tomorrow',
    symptom: 'Good today, dead tomorrow',
    lookAt: 'untouched cane, the weather',
    action: 'do not scrape on the first day of a change in the weather',
    risk: 'the commonest way to kill a good reed',
  },
];
