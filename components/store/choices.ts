import { USUAL_MARGIN_MM } from '../../src/plan/next-strokes.ts';
import type { Settings } from '../../shared/settings.ts';
import type { Stamp } from '../../shared/stamp.ts';

/** The maker's own choices, without the stamp of their document. */
export type Choices = Omit<Settings, keyof Stamp | 'kind'> &
  Required<Pick<Settings, 'takes' | 'digits' | 'tipLast' | 'marginMm' | 'fromOthers'>>;

/** How the maker wants to be advised, the same on every screen. */
export interface Advice {
  readonly tipLast: boolean;
  readonly marginMm: number;
}

/** What holds until the maker chooses otherwise. */
export const USUAL_CHOICES = {
  unit: 'hundredths',
  decimal: 'point',
  handedness: 'right',
  pitchHz: 442,
  theme: 'system',
  textScale: 1,
  letterKeys: true,
  sounds: 'tones',
  takes: 'enter',
  digits: 'telephone',
  fromOthers: true,
  tipLast: true,
  marginMm: USUAL_MARGIN_MM,
} as const satisfies Choices & Advice;

export const adviceOf = ({
  tipLast = USUAL_CHOICES.tipLast,
  marginMm = USUAL_CHOICES.marginMm,
}: Choices): Advice => ({ tipLast, marginMm });

export const isOtherAdvice = (now: Advice, before: Advice): boolean =>
  now.tipLast !== before.tipLast || now.marginMm !== before.marginMm;
