/** The looks a maker may choose; `lamp` is for a dim bench: warm, no pure white, little blue light. */
export const THEMES = ['day', 'dark', 'lamp'] as const;
export type Theme = (typeof THEMES)[number];

/**
 * What a colour is for. `rule` is ornament only; `rule2`, `focus`, `favourite` and `strokes` are lines and marks; the rest
 * are text or surfaces. Colour belongs to cane: `bladeA` to `strokes` are measurements and plans, and never controls.
 */
export const ROLES = [
  'paper',
  'plate',
  'sunk',
  'ink',
  'ink2',
  'ink3',
  'rule',
  'rule2',
  'focus',
  'bladeA',
  'bladeB',
  'favourite',
  'excess',
  'lack',
  'strokes',
  'stop',
] as const;
export type Role = (typeof ROLES)[number];

export const PALETTE: Readonly<Record<Theme, Readonly<Record<Role, string>>>> = {
  day: {
    paper: '#eff2f2',
    plate: '#fbfcfb',
    sunk: '#e4e9e9',
    ink: '#15212a',
    ink2: '#43525c',
    ink3: '#586770',
    rule: '#ccd5d7',
    rule2: '#74828a',
    focus: '#0b5cad',
    bladeA: '#1d5f9b',
    bladeB: '#8a1a45',
    favourite: '#4f8728',
    excess: '#8f4606',
    lack: '#5b3a94',
    strokes: '#c8660c',
    stop: '#9c1f2e',
  },
  dark: {
    paper: '#10171c',
    plate: '#161f26',
    sunk: '#0b1115',
    ink: '#e6ecee',
    ink2: '#b3c0c6',
    ink3: '#8d9ca5',
    rule: '#2b3841',
    rule2: '#6a7a84',
    focus: '#8cc4ff',
    bladeA: '#74b0ea',
    bladeB: '#e0708f',
    favourite: '#b4e0a8',
    excess: '#e9a763',
    lack: '#b9aee6',
    strokes: '#eda24a',
    stop: '#ff8f8f',
  },
  lamp: {
    paper: '#120d07',
    plate: '#18110a',
    sunk: '#0c0804',
    ink: '#f0cd98',
    ink2: '#c7a171',
    ink3: '#a07f52',
    rule: '#37291a',
    rule2: '#856a45',
    focus: '#ffd27a',
    bladeA: '#a9bfd0',
    bladeB: '#dd7a4e',
    favourite: '#e3e6a4',
    excess: '#f0a452',
    lack: '#b9add8',
    strokes: '#f0a452',
    stop: '#ff8a66',
  },
};

/** Inks that a number on a map may take, the first one that reads being taken. */
export const MAP_INKS: Readonly<Record<Theme, readonly string[]>> = {
  day: [PALETTE.day.ink, '#000000', '#ffffff'],
  dark: [PALETTE.dark.ink, '#ffffff', '#000000'],
  lamp: [PALETTE.lamp.ink, '#fff8e8', '#000000'],
};
