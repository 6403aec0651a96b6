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

/** Steps from group to group, and within a group. */
type Move = readonly [between: number, within: number];
const MOVES: Readonly<Record<'columns' | 'rows', Readonly<Record<string, Move>>>> = {
  columns: { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] },
  rows: { ArrowUp: [-1, 0], ArrowDown: [1, 0], ArrowLeft: [0, -1], ArrowRight: [0, 1] },
};

/**
 * Walks the marks of a chart: one stop of the Tab key, then by arrows along groups and within them, Home and End to the
 * ends. Groups are columns, from left to right, each from below; or rows, from above, each from the left. From group to
 * group the nearest mark comes next. The mark under the pointer, or that has the focus, shows its card.
 */
export class MarkWalk implements ReactiveController {
  /** Called when a mark is come to by key, pointer or touch. */
  onCome: ((stop: Stop) => void) | undefined;
  private readonly host: Host;
  private readonly along: 'columns' | 'rows';
  private place: string | undefined;
  private shownId: string | undefined;
  private drawn: readonly (readonly Stop[])[] = [];
  /** The mark that Tab comes to. */
  private tabId: string | undefined;

  constructor(host: Host, along: 'columns' | 'rows' = 'columns') {
    this.host = host;
    this.along = along;
    host.addController(this);
  }

  hostConnected(): void {
    // Nothing is listened to: the marks themselves tell.
  }

  get groups(): readonly (readonly Stop[])[] {
    return this.drawn;
  }

  /** Set anew with every drawing; empty groups are passed over. */
  set groups(groups: readonly (readonly Stop[])[]) {
    this.drawn = groups;
    this.tabId = this.current?.id;
  }

  /** The mark whose card is open. */
  get shown(): Stop | undefined {
    return this.groups.flat().find(({ id }) => id === this.shownId);
  }

  private get current(): Stop | undefined {
    const all = this.groups.flat();
    return all.find(({ id }) => id === this.place) ?? all.at(-1);
  }

  /** A mark that can be come to, around what is drawn of it. */
  wrap(stop: Stop, drawn: SVGTemplateResult): SVGTemplateResult {
    const tab = this.tabId === stop.id ? 0 : -1;
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
    const { current } = this;
    if (!current) return;
    const groups = this.groups.filter((group) => group.length > 0);
    const at = groups.findIndex((group) => group.includes(current));
    const within = groups[at]!.indexOf(current);
    const move = MOVES[this.along][event.key];
    const next =
      event.key === 'Home'
        ? groups[0]![0]
        : event.key === 'End'
          ? groups.at(-1)![0]
          : move &&
            (move[0] === 0 ? groups[at]![within + move[1]] : this.nearest(groups[at + move[0]], current));
    if (!next) return;
    event.preventDefault();
    this.show(next);
    void this.host.updateComplete.then(() => {
      this.host.renderRoot.querySelector<SVGElement>(`[data-stop="${next.id}"]`)?.focus();
    });
  };

  private nearest(group: readonly Stop[] = [], from: Stop): Stop | undefined {
    const apart = (stop: Stop) => Math.abs(this.along === 'rows' ? stop.x - from.x : stop.y - from.y);
    return [...group].sort((a, b) => apart(a) - apart(b))[0];
  }
}
