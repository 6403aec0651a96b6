import { svg, type ReactiveController, type ReactiveControllerHost, type SVGTemplateResult } from 'lit';

/** A mark that can be come to: by keys, by pointing, by touching. */
export interface Stop {
  readonly id: string;
  /** What it is, for those who hear it. */
  readonly words: string;
  /** Where Enter, a click and a second touch lead. */
  readonly href?: string;
  readonly x: number;
  readonly y: number;
  /** The lines of its card; the first is its name. */
  readonly lines: readonly string[];
}

type Host = ReactiveControllerHost & HTMLElement & { readonly renderRoot: ParentNode };

const MOVES: Readonly<Record<string, readonly [across: number, down: number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

/**
 * Walks the marks of a chart: one stop of the Tab key, then left and right from column to column, up and down within a
 * column, Home and End to its ends. The mark under the pointer, or that has the focus, shows its card.
 */
export class MarkWalk implements ReactiveController {
  /** From left to right, and within a column from below. Set anew with every drawing; empty columns are passed over. */
  columns: readonly (readonly Stop[])[] = [];
  /** Called when a mark is come to by key, pointer or touch. */
  onCome: ((stop: Stop) => void) | undefined;
  private readonly host: Host;
  private place: string | undefined;
  private shownId: string | undefined;

  constructor(host: Host) {
    this.host = host;
    host.addController(this);
  }

  hostConnected(): void {
    // Nothing is listened to: the marks themselves tell.
  }

  /** The mark whose card is open. */
  get shown(): Stop | undefined {
    return this.columns.flat().find(({ id }) => id === this.shownId);
  }

  /** The mark that Tab comes to. */
  private get current(): Stop | undefined {
    const all = this.columns.flat();
    return all.find(({ id }) => id === this.place) ?? all.at(-1);
  }

  /** A mark that can be come to, around what is drawn of it. */
  wrap(stop: Stop, drawn: SVGTemplateResult): SVGTemplateResult {
    const tab = this.current?.id === stop.id ? 0 : -1;
    const [show, hide] = [() => this.show(stop), () => this.show(undefined)];
    const ring = svg`<circle class="ring" cx=${stop.x} cy=${stop.y} r="11"></circle>`;
    return stop.href === undefined
      ? svg`<g class="stop" role="img" data-stop=${stop.id} tabindex=${tab} aria-label=${stop.words}
          @focus=${show} @blur=${hide} @pointerenter=${show} @pointerleave=${hide} @keydown=${this.handleKey}
          >${ring}${drawn}</g>`
      : svg`<a class="stop" href=${stop.href} data-stop=${stop.id} tabindex=${tab} aria-label=${stop.words}
          @focus=${show} @blur=${hide} @pointerenter=${show} @pointerleave=${hide} @keydown=${this.handleKey}
          @pointerdown=${(event: PointerEvent) => this.handleTouch(event, stop)}>${ring}${drawn}</a>`;
  }

  private show(stop: Stop | undefined): void {
    if (stop?.id === this.shownId) return;
    this.shownId = stop?.id;
    if (stop) {
      this.place = stop.id;
      this.onCome?.(stop);
    }
    this.host.requestUpdate();
  }

  /** The first touch shows the card, the second opens. */
  private handleTouch(event: PointerEvent, stop: Stop): void {
    if (event.pointerType !== 'touch' || this.shownId === stop.id) return;
    const wait = (click: Event) => click.preventDefault();
    event.currentTarget?.addEventListener('click', wait, { once: true });
  }

  private readonly handleKey = (event: KeyboardEvent): void => {
    const columns = this.columns.filter((column) => column.length > 0);
    const at = columns.findIndex((column) => column.some(({ id }) => id === this.current?.id));
    const row = columns[at]?.findIndex(({ id }) => id === this.current?.id) ?? 0;
    const move = MOVES[event.key];
    const next =
      event.key === 'Home'
        ? columns[0]?.[0]
        : event.key === 'End'
          ? columns.at(-1)?.[0]
          : move && (move[0] === 0 ? columns[at]?.[row + move[1]] : beside(columns[at + move[0]], row));
    if (!next) return;
    event.preventDefault();
    this.show(next);
    void this.host.updateComplete.then(() => {
      this.host.renderRoot.querySelector<SVGElement>(`[data-stop="${next.id}"]`)?.focus();
    });
  };
}

const beside = (column: readonly Stop[] | undefined, row: number) =>
  column?.[Math.min(row, column.length - 1)];
