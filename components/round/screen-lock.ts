import type { ReactiveController, ReactiveControllerHost } from 'lit';

/** Keeps the screen awake while its host is on the page, where the browser can. */
export class ScreenLock implements ReactiveController {
  private lock: WakeLockSentinel | undefined;
  private isNeeded = false;
  private readonly handleVisible = () => void this.take();

  constructor(host: ReactiveControllerHost) {
    host.addController(this);
  }

  hostConnected(): void {
    this.isNeeded = true;
    document.addEventListener('visibilitychange', this.handleVisible);
    void this.take();
  }

  hostDisconnected(): void {
    this.isNeeded = false;
    document.removeEventListener('visibilitychange', this.handleVisible);
    this.letGo();
  }

  private letGo(): void {
    void this.lock?.release();
    this.lock = undefined;
  }

  private async take(): Promise<void> {
    if (document.visibilityState !== 'visible' || !('wakeLock' in navigator)) return;
    try {
      this.lock = await navigator.wakeLock.request('screen');
      if (!this.isNeeded) this.letGo();
    } catch {
      // Refused on low battery or by policy: the round goes on without it.
      this.lock = undefined;
    }
  }
}
