import type { Settings } from '../../shared/settings.ts';
import type { Stamp } from '../../shared/stamp.ts';

/** The maker's own choices, without the stamp of their document. */
export type Choices = Omit<Settings, keyof Stamp | 'kind'> & Required<Pick<Settings, 'takes' | 'digits'>>;

/** What holds until the maker chooses otherwise. */
export const USUAL_CHOICES: Choices = {
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
};
