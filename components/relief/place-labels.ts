import type { Blade } from '../../shared/blade.ts';
import type { OnCanvas, ReliefScene } from '../scene/relief-scene.ts';

/** The value of a contour line is left out where it would stand nearer than this to another, CSS pixels. */
const ROOM = { left: 16, top: 11 };

const isNear = (one: OnCanvas, other: OnCanvas) =>
  Math.abs(one.left - other.left) < ROOM.left && Math.abs(one.top - other.top) < ROOM.top;

/**
 * Puts distances, values of contour lines and the blades' names where their places stand now.
 *
 * @param labels Holds the labels; each says its blade and its distance from the tip.
 */
export function placeLabels(labels: HTMLElement, scene: ReliefScene): void {
  const taken: OnCanvas[] = [];
  for (const label of labels.querySelectorAll<HTMLElement>('[data-blade]')) {
    const { blade, fromTip } = label.dataset;
    const at = (across: number) =>
      scene.onCanvas({ blade: blade as Blade, fromTipMm: Number(fromTip), across });
    // Names and values stand on the middle, a distance beside the edge that is nearer to the eye.
    const isDistance = label.className === '';
    const edges = [at(-1), at(1)].sort((one, other) => (other?.top ?? 0) - (one?.top ?? 0));
    const found = isDistance ? edges[0] : at(0);
    const isLevel = label.matches('.level');
    label.hidden = !found || (isLevel && (!found.isBark || taken.some((other) => isNear(found, other))));
    if (found && !label.hidden) taken.push(found);
    label.style.setProperty('--left', `${found?.left ?? 0}px`);
    label.style.setProperty('--top', `${found?.top ?? 0}px`);
  }
}
