import type { ReactiveController, ReactiveControllerHost } from 'lit';

/** Keeps the screen awake while its host is on the page, where the browser can. */
export class ScreenLock implements ReactiveController {
  private lock: WakeLockSentinel | undefined;
  private readonly handleVisible = () => void this.take();

  constructor(host: ReactiveControllerHost) {
    host.addController(this);
  }

  hostConnected(): void {
    document.addEventListener('visibilitychange', this.handleVisible);
    void this.take();
  }

  hostDisconnected(): void {
    document.removeEventListener('visibilitychange', this.handleVisible);
    void this.lock?.release();
    this.lock = undefined;
  }

  private async take(): Promise<void> {
    if (document.visibilityState !== 'visible' || !('wakeLock' in navigator)) return;
    try {
      this.lock = await navigator.wakeLock.request('screen');
    } catch {
      // Refused on low battery or by policy: the round goes on without it.
      this.lock = undefined;
    }
  }
}
