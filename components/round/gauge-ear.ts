import type { ReactiveController, ReactiveControllerHost } from 'lit';
import { hearChosenPort } from '../gauge/hear-chosen-port.ts';
import type { SerialLike } from '../gauge/serial-port.ts';
import type { LibraryController } from '../store/library-controller.ts';

/** Hears the library's gauge while its host is on the page, on a port that the maker allowed before. */
export class GaugeEar implements ReactiveController {
  private readonly host: ReactiveControllerHost & { readonly serial: SerialLike | undefined };
  private readonly library: LibraryController;
  private watching: AbortController | undefined;
  private heard: { readonly serial: SerialLike; readonly connection: string } | undefined;

  constructor(
    host: ReactiveControllerHost & { readonly serial: SerialLike | undefined },
    library: LibraryController,
  ) {
    this.host = host;
    this.library = library;
    host.addController(this);
  }

  hostUpdated(): void {
    const { serial } = this.host;
    const { store } = this.library;
    const connection = store?.snapshot.live.gauge.at(-1)?.connection;
    if (!store || !serial || !connection) return;
    const heard = { serial, connection: JSON.stringify(connection) };
    if (this.heard?.serial === serial && this.heard.connection === heard.connection) return;
    this.heard = heard;
    this.watching?.abort();
    this.watching = new AbortController();
    hearChosenPort(
      serial,
      connection,
      () => store.gauge,
      (gauge) => store.useGauge(gauge),
      this.watching.signal,
    ).catch((error: unknown) => store.tell(error));
  }

  hostDisconnected(): void {
    this.watching?.abort();
    this.heard = undefined;
  }
}
