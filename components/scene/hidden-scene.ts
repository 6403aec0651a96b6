import type { ThicknessUnit } from '../../shared/units.ts';
import { ENLARGED, FIRST_LIGHT, type ReliefBlade } from '../relief/relief-data.ts';
import type { Theme } from '../theme/palette.ts';
import { ReliefScene } from './relief-scene.ts';

/** A scene that is laid out, so that it has a size, and out of sight: for pictures that are kept. Its maker calls `close`. */
export class HiddenScene {
  readonly scene: ReliefScene;
  private readonly room = document.createElement('div');

  /**
   * @param width Of its pictures, CSS pixels, as `height`.
   * @throws Error when the browser has no WebGL.
   */
  constructor(width: number, height: number) {
    const canvas = document.createElement('canvas');
    Object.assign(this.room.style, { position: 'fixed', left: '-4000px', top: '0' });
    this.room.setAttribute('aria-hidden', 'true');
    Object.assign(canvas.style, { width: `${width}px`, height: `${height}px` });
    this.room.append(canvas);
    document.body.append(this.room);
    try {
      this.scene = new ReliefScene(canvas, () => undefined);
    } catch (error) {
      this.room.remove();
      throw error;
    }
    this.scene.isStill = true;
  }

  /** Shows a reed on its staple, from where all are seen first, by the light's first place. */
  show(blades: readonly ReliefBlade[], unit: ThicknessUnit, theme: Theme): void {
    const { thickness: factor, difference: differenceFactor } = ENLARGED;
    const light = { isEven: false, angle: FIRST_LIGHT };
    this.scene.show({ blades, stance: 'staple', factor, differenceFactor, unit, lift: 1, light }, theme);
    this.scene.look('cork');
  }

  close(): void {
    this.scene.dispose();
    this.room.remove();
  }
}
