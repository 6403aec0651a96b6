import type { Print } from '../map/prints.ts';
import type { Sight } from './eye.ts';
import { HOME, POSES, STEEP, type Pose } from './stance.ts';

/** A pose seen from somewhere. */
export interface Shot extends Pose, Sight {}

/** The first view of a stance. On the staple in a picture that is higher than wide the reed stands steeper. */
export function homeShot(stance: Print, isHigh: boolean): Shot {
  return { ...POSES[stance], ...(stance === 'staple' && isHigh ? STEEP : HOME[stance]), nearer: 1 };
}

/** On the way from one to another, turned the shorter way round. */
export function between(from: Shot, to: Shot, share: number): Shot {
  const mix = (name: keyof Shot) => from[name] + share * (to[name] - from[name]);
  const round = to.turn - from.turn;
  return {
    closed: mix('closed'),
    flat: mix('flat'),
    tilt: mix('tilt'),
    nearer: mix('nearer'),
    turn: from.turn + share * Math.atan2(Math.sin(round), Math.cos(round)),
  };
}
