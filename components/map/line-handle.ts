import { svg, type SVGTemplateResult } from 'lit';
import { acrossWords } from '../../src/words/figure-words.ts';
import { plainText } from '../../src/words/format.ts';
import { placesPath, type BladeDrawing } from './blade-drawing.ts';
import type { BladeMapData, OutlinePoint, ProfileLine } from './map-data.ts';
import { MapLineMoveEvent } from './map-events.ts';

/** Steps of the keys, and of a drag: fractions of the half-width, mm. */
const STEP = { down: 0.05, across: 0.25 };
const COARSE = 4;

/** Read out by a voice that has its own decimal sign. */
const WRITING = { decimal: 'point' } as const;

const FORWARD = ['ArrowRight', 'ArrowDown'];
const BACK = ['ArrowLeft', 'ArrowUp'];

function valueOf(line: ProfileLine): number {
  return line.kind === 'down' ? line.across : line.fromTipMm;
}

/** The line with another value, rounded to its step and kept on the blade. */
function moved(line: ProfileLine, value: number, bladeLengthMm: number): ProfileLine {
  const step = STEP[line.kind];
  const rounded = Math.round(value / step) * step;
  if (line.kind === 'down') return { kind: 'down', across: Math.min(Math.max(rounded, -1), 1) };
  return { kind: 'across', fromTipMm: Math.min(Math.max(rounded, 0), bladeLengthMm) };
}

function words(line: ProfileLine): string {
  if (line.kind === 'across') return `${plainText(line.fromTipMm, WRITING)} mm from the tip`;
  return `${acrossWords(line.across)}, ${plainText(line.across, WRITING)} of the half-width`;
}

/** Draws the line that a profile follows, and lets pointer and keys move it. */
export class LineHandle {
  private readonly host: HTMLElement;

  constructor(host: HTMLElement) {
    this.host = host;
  }

  render(drawing: BladeDrawing, data: BladeMapData, line: ProfileLine): SVGTemplateResult {
    const end = data.bladeLengthMm;
    const places: OutlinePoint[] =
      line.kind === 'down'
        ? Array.from({ length: 41 }, (_, k) => ({ fromTipMm: (end * k) / 40, across: line.across }))
        : [-1, 1].map((across) => ({ fromTipMm: line.fromTipMm, across }));
    const path = placesPath(drawing, places);
    const isResting = line.kind === 'down' && line.across === 0;
    const [x, y] =
      line.kind === 'down'
        ? [drawing.x(0, line.across), drawing.y(0) - 9]
        : [drawing.x(line.fromTipMm, 1) + 9, drawing.y(line.fromTipMm)];
    const grip = line.kind === 'down' ? `M${x} ${y + 7}l-6 -8.5h12Z` : `M${x - 7} ${y}l11 -7v14Z`;
    return svg`<g class=${isResting ? 'line resting' : 'line'}><path class="halo" d=${path}></path><path class="course" d=${path}></path>
      <g role="slider" tabindex="0" aria-label=${`Line of the profile on blade ${data.blade}`}
        aria-orientation=${line.kind === 'down' ? 'horizontal' : 'vertical'}
        aria-valuemin=${line.kind === 'down' ? -1 : 0} aria-valuemax=${line.kind === 'down' ? 1 : end}
        aria-valuenow=${valueOf(line)} aria-valuetext=${words(line)}
        @keydown=${(event: KeyboardEvent) => this.handleKey(event, data, line)}
        @pointerdown=${(event: PointerEvent) => (event.currentTarget as Element).setPointerCapture(event.pointerId)}
        @pointermove=${(event: PointerEvent) => this.handleDrag(event, drawing, data, line)}
        @click=${(event: Event) => event.stopPropagation()}>
        <circle class="reach" cx=${x} cy=${y} r="22"></circle><path class="grip" d=${grip}></path></g></g>`;
  }

  private move(data: BladeMapData, line: ProfileLine, value: number) {
    const next = moved(line, value, data.bladeLengthMm);
    if (valueOf(next) !== valueOf(line)) this.host.dispatchEvent(new MapLineMoveEvent(data.blade, next));
  }

  private handleKey(event: KeyboardEvent, data: BladeMapData, line: ProfileLine) {
    const direction = FORWARD.includes(event.key) ? 1 : BACK.includes(event.key) ? -1 : 0;
    if (direction === 0) return;
    event.preventDefault();
    event.stopPropagation();
    this.move(data, line, valueOf(line) + direction * STEP[line.kind] * (event.shiftKey ? COARSE : 1));
  }

  private handleDrag(event: PointerEvent, drawing: BladeDrawing, data: BladeMapData, line: ProfileLine) {
    const grip = event.currentTarget as SVGGElement;
    event.stopPropagation();
    if (!grip.hasPointerCapture(event.pointerId)) return;
    const box = grip.ownerSVGElement!.getBoundingClientRect();
    const scale = drawing.width / box.width;
    const x = (event.clientX - box.left) * scale;
    const fromTipMm = drawing.placeAt(x, (event.clientY - box.top) * scale).fromTipMm;
    // The grip of a line down stands at the tip's edge: across is counted there.
    this.move(data, line, line.kind === 'down' ? drawing.placeAt(x, drawing.y(0)).across : fromTipMm);
  }
}
