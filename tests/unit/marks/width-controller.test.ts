import type { ReactiveControllerHost } from 'lit';
import { afterEach, expect, it, vi } from 'vitest';
import { WidthController } from '../../../components/marks/width-controller.ts';

afterEach(() => vi.unstubAllGlobals());

type Tell = (entries: readonly { contentRect: { width: number } }[]) => void;

/** A controller, widths told by the browser as they come, and frames as they are drawn. */
function observed() {
  const tells: Tell[] = [];
  const frames: (() => void)[] = [];
  vi.stubGlobal('ResizeObserver', function observer(tell: Tell) {
    tells.push(tell);
  });
  vi.stubGlobal('requestAnimationFrame', (frame: () => void) => frames.push(frame));
  const requestUpdate = vi.fn();
  const host = { addController: () => undefined, requestUpdate };
  const size = new WidthController(host as unknown as ReactiveControllerHost & Element);
  const draw = () => frames.splice(0).forEach((frame) => frame());
  const say = (width: number) => tells[0]!([{ contentRect: { width } }]);
  return { size, requestUpdate, draw, say };
}

it('is as wide as the host was last told to be, though it was narrow for a moment between two frames', () => {
  const { size, draw, say } = observed();
  say(1400.7);
  expect(size.width).toBe(0);
  draw();
  expect(size.width).toBe(1400);
  say(360);
  say(1400.2);
  draw();
  expect(size.width).toBe(1400);
});

it('draws its host again for another width alone, and for none under 160 pixels', () => {
  const { size, requestUpdate, draw, say } = observed();
  for (const width of [159, 160, 160.4, 500]) {
    say(width);
    draw();
  }
  expect(size.width).toBe(500);
  expect(requestUpdate).toHaveBeenCalledTimes(2);
});
