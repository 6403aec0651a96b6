import { expect } from 'chai';
import type { ReactiveController, ReactiveControllerHost } from 'lit';
import { ScreenLock } from '../../components/round/screen-lock.ts';
import { until } from './until.ts';

/** Stands in for the browser's lock, and counts. */
function locks(refuses = false) {
  const count = { asked: 0, held: 0 };
  const request = async () => {
    count.asked += 1;
    if (refuses) throw new DOMException('low battery', 'NotAllowedError');
    count.held += 1;
    return { release: async () => void (count.held -= 1) } as unknown as WakeLockSentinel;
  };
  Object.defineProperty(navigator, 'wakeLock', { configurable: true, value: { request } });
  return count;
}

function host() {
  const controllers: ReactiveController[] = [];
  const one = { addController: (controller: ReactiveController) => void controllers.push(controller) };
  new ScreenLock(one as unknown as ReactiveControllerHost);
  return {
    connect: () => controllers.forEach((controller) => controller.hostConnected?.()),
    disconnect: () => controllers.forEach((controller) => controller.hostDisconnected?.()),
  };
}

describe('the screen while a pass is open', () => {
  afterEach(() => Reflect.deleteProperty(navigator, 'wakeLock'));

  it('stays awake, is asked for again when the page comes back into view, and may sleep afterwards', async () => {
    const count = locks();
    const round = host();
    round.connect();
    await until(() => count.held === 1);
    document.dispatchEvent(new Event('visibilitychange'));
    await until(() => count.asked === 2);
    round.disconnect();
    await until(() => count.held < 2);
    document.dispatchEvent(new Event('visibilitychange'));
    expect(count.asked, 'not asked for once the round has left').to.equal(2);
  });

  it('may sleep where the round left before the browser had answered', async () => {
    const count = locks();
    const round = host();
    round.connect();
    round.disconnect();
    await until(() => count.asked === 1 && count.held === 0);
  });

  it('is no matter to the round where the browser refuses it', async () => {
    const count = locks(true);
    host().connect();
    await until(() => count.asked === 1);
  });
});
