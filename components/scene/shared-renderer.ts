import { SRGBColorSpace, WebGLRenderer, type Camera, type Scene } from 'three';

/** What a frame cost. */
export interface FrameCost {
  readonly drawCalls: number;
}

/** Told when a lost context has come back and pictures must be drawn anew. */
type Restored = () => void;

let renderer: WebGLRenderer | undefined;
const users = new Set<Restored>();

function make(): WebGLRenderer {
  const made = new WebGLRenderer({ antialias: true, alpha: true });
  made.outputColorSpace = SRGBColorSpace;
  made.localClippingEnabled = true;
  made.setClearAlpha(0);
  made.domElement.addEventListener('webglcontextrestored', () => users.forEach((restored) => restored()));
  return made;
}

/**
 * The page's one WebGL context, made for its first user and given back with its last: browsers have about sixteen and take
 * the oldest away. Users keep a plain canvas each and have frames copied into it, so a lost context leaves them their
 * last picture.
 */
export class RendererLease {
  private readonly restored: Restored;

  /** @throws Error when the browser has no WebGL. */
  constructor(restored: Restored) {
    renderer ??= make();
    this.restored = restored;
    users.add(restored);
  }

  /** Draws a scene at a canvas's own size and copies it there; nothing happens while the context is lost. */
  draw(scene: Scene, camera: Camera, target: HTMLCanvasElement): FrameCost | undefined {
    if (!renderer || renderer.getContext().isContextLost()) return undefined;
    const { width, height } = target;
    const { domElement } = renderer;
    if (domElement.width !== width || domElement.height !== height) renderer.setSize(width, height, false);
    renderer.render(scene, camera);
    const paper = target.getContext('2d')!;
    paper.clearRect(0, 0, width, height);
    paper.drawImage(domElement, 0, 0);
    return { drawCalls: renderer.info.render.calls };
  }

  dispose(): void {
    users.delete(this.restored);
    if (users.size > 0 || !renderer) return;
    renderer.dispose();
    renderer.forceContextLoss();
    renderer = undefined;
  }
}

/** Geometries and textures that are still held on the graphics card, and whether there is a context at all. */
export function heldResources(): { contexts: number; geometries: number; textures: number } {
  const memory = renderer?.info.memory;
  return {
    contexts: renderer ? 1 : 0,
    geometries: memory?.geometries ?? 0,
    textures: memory?.textures ?? 0,
  };
}

/** The context itself, for a test that takes it away. */
export function contextOfPage(): WebGLRenderingContext | WebGL2RenderingContext | undefined {
  return renderer?.getContext();
}
