import type { Theme } from '../theme/palette.ts';

/** Colours of what is not measured: wood, thread, metal, cork. Chosen by eye for each look. */
export interface Matter {
  readonly bark: string;
  readonly cut: string;
  readonly inside: string;
  readonly thread: string;
  readonly metal: string;
  readonly bore: string;
  readonly cork: string;
  /** Contours on pale and on deep cane. */
  readonly contour: { readonly onPale: string; readonly onDeep: string };
}

export const MATTER: Readonly<Record<Theme, Matter>> = {
  day: {
    bark: '#dcbd74',
    cut: '#efe3b4',
    inside: '#cbb27a',
    thread: '#33424c',
    metal: '#b9c2c4',
    bore: '#15212a',
    cork: '#b98f5e',
    contour: { onPale: '#15212a', onDeep: '#15212a' },
  },
  dark: {
    bark: '#8f7443',
    cut: '#b9a878',
    inside: '#6b5833',
    thread: '#5c6f7b',
    metal: '#7d8b92',
    bore: '#0b1115',
    cork: '#7a5f3e',
    contour: { onPale: '#10171c', onDeep: '#ccd9e4' },
  },
  lamp: {
    bark: '#7a5420',
    cut: '#a98a4c',
    inside: '#5b3f18',
    thread: '#5a4128',
    metal: '#8a6e48',
    bore: '#0c0804',
    cork: '#65431d',
    contour: { onPale: '#120d07', onDeep: '#edcc94' },
  },
};
