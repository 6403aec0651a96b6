import {
  DataTexture,
  DoubleSide,
  NearestFilter,
  RGBAFormat,
  ShaderMaterial,
  Vector3,
  type IUniform,
} from 'three';
import type { ReliefSettings } from '../relief/relief-data.ts';
import type { Quantity } from '../theme/ramp.ts';
import type { Theme } from '../theme/palette.ts';
import { channels } from '../theme/contrast.ts';
import { shadedRamp } from './shaded-ramp.ts';

/** What all bodies of a scene are lit by; one object, so that turning the light is one change. */
export interface Light {
  /** Towards the light, in the eye's axes, length 1. */
  readonly towards: IUniform<Vector3>;
  /** 1 for a raking light, 0 for an even one that changes no colour. */
  readonly rake: IUniform<number>;
}

export function makeLight(): Light {
  return { towards: { value: new Vector3(-0.8, 0.3, 0.5).normalize() }, rake: { value: 1 } };
}

/** A light that rakes: so high over the picture, of length 1 with its part along it. */
const LIGHT_HEIGHT = 0.5;

/** Sets from where a light comes. */
export function aim(light: Light, { isEven, angle }: ReliefSettings['light']): void {
  light.rake.value = isEven ? 0 : 1;
  const flat = Math.sqrt(1 - LIGHT_HEIGHT ** 2);
  light.towards.value.set(flat * Math.cos(angle), flat * Math.sin(angle), LIGHT_HEIGHT);
}

/** `#rrggbb` as the shaders take it: colours are written as they are, without a change of colour space. */
export const shaderColour = (colour: string): Vector3 =>
  new Vector3(...channels(colour)).multiplyScalar(1 / 255);

/**
 * Vertices carry: `band` the place on the ramp in bands, `level` the thickness in contour steps, `ripple` -1 to 1 how far
 * a place stands under or over its surroundings, `known` 1 where it was read.
 */
const VERTEX = /* glsl */ `
attribute float band, level, ripple, known;
varying float vBand, vLevel, vRipple, vKnown;
varying vec3 vNormal, vPlace, vEye;
void main() {
  vBand = band; vLevel = level; vRipple = ripple; vKnown = known;
  vNormal = normalMatrix * normal;
  vPlace = position;
  vec4 seen = modelViewMatrix * vec4(position, 1.0);
  vEye = -seen.xyz;
  gl_Position = projectionMatrix * seen;
}`;

/** Normal towards the eye; light as -1 (full shade) to 1; a line where a value passes whole numbers; grain of cane. */
const COMMON = /* glsl */ `
varying float vBand, vLevel, vRipple, vKnown;
varying vec3 vNormal, vPlace, vEye;
uniform vec3 towards;
uniform float rake, opacity;
vec3 facing() { vec3 n = normalize(vNormal); return gl_FrontFacing ? n : -n; }
float litBy(vec3 n) { return rake * clamp((dot(n, towards) - 0.42) * 1.7, -1.0, 1.0); }
float lineAt(float value, float width) {
  float change = fwidth(value);
  float away = abs(fract(value - 0.5) - 0.5) / change;
  // A plateau at a level is no line.
  return (1.0 - smoothstep(width - 0.6, width + 0.6, away)) * smoothstep(0.00002, 0.0001, change);
}
float hash(vec2 p) { return fract(sin(dot(p, vec2(12.9898, 78.233))) * 43758.5453); }
float noise(vec2 p) {
  vec2 i = floor(p), f = fract(p);
  f = f * f * (3.0 - 2.0 * f);
  return mix(mix(hash(i), hash(i + vec2(1, 0)), f.x), mix(hash(i + vec2(0, 1)), hash(i + vec2(1, 1)), f.x), f.y);
}
float grain() { return noise(vec2(vPlace.x * 22.0, vPlace.y * 0.9)) + 0.5 * noise(vec2(vPlace.x * 60.0, vPlace.y * 2.0)) - 0.75; }
`;

const RAMP = /* glsl */ `
uniform sampler2D ramp;
uniform float bands;
vec3 onRamp(float band, float light) {
  float x = (clamp(floor(band), 0.0, bands - 1.0) + 0.5) / bands;
  vec3 plain = texture2D(ramp, vec2(x, 0.5)).rgb;
  vec3 end = texture2D(ramp, vec2(x, light < 0.0 ? 1.0 / 6.0 : 5.0 / 6.0)).rgb;
  return mix(plain, end, abs(light));
}`;

function rampTexture(quantity: Quantity, theme: Theme) {
  const { texels, bands } = shadedRamp(quantity, theme);
  const texture = new DataTexture(texels, bands, 3, RGBAFormat);
  texture.minFilter = texture.magFilter = NearestFilter;
  texture.needsUpdate = true;
  const colourAt = (band: number): readonly [number, number, number] => {
    const first = 4 * (bands + Math.min(Math.max(Math.floor(band), 0), bands - 1));
    return [texels[first]! / 255, texels[first + 1]! / 255, texels[first + 2]! / 255];
  };
  return { texture, bands, colourAt };
}

/** Colour of a vertex, red, green and blue from 0 to 1 as written; undefined where the shader cuts it away. */
export type VertexColour = (band: number, known: number) => readonly [number, number, number] | undefined;

/** Frees its textures with itself, and can say its colours without a graphics card, for a file. */
export class BodyMaterial extends ShaderMaterial {
  colourOf: VertexColour = () => undefined;

  override dispose(): void {
    for (const { value } of Object.values(this.uniforms)) if (value instanceof DataTexture) value.dispose();
    super.dispose();
  }
}

function material(
  fragment: string,
  light: Light,
  uniforms: Record<string, IUniform>,
  colourOf: VertexColour,
  opacity = 1,
): BodyMaterial {
  const made = new BodyMaterial({
    side: DoubleSide,
    transparent: opacity < 1,
    depthWrite: opacity === 1,
    uniforms: { towards: light.towards, rake: light.rake, opacity: { value: opacity }, ...uniforms },
    vertexShader: VERTEX,
    fragmentShader: COMMON + fragment,
    // Faces give way to the lines that lie on them.
    polygonOffset: true,
    polygonOffsetFactor: 1,
    polygonOffsetUnits: 2,
  });
  made.colourOf = colourOf;
  return made;
}

/** How scraped cane is printed. */
export interface CanePrint {
  readonly theme: Theme;
  readonly light: Light;
  readonly bark: string;
  /** Contours on pale and on deep cane. */
  readonly contour: { readonly onPale: string; readonly onDeep: string };
  /** 0 the ramp's own colours, 1 nearly grey: where something else is printed over it. */
  readonly mute?: number;
  readonly opacity?: number;
}

/** Cane in the colours of the flat map with its contour lines, and bark where nothing was read. */
export function caneMaterial({
  theme,
  light,
  bark,
  contour,
  mute = 0,
  opacity = 1,
}: CanePrint): ShaderMaterial {
  const { texture, bands, colourAt } = rampTexture('thickness', theme);
  const wood = shaderColour(bark).toArray();
  const fragment = /* glsl */ `
    uniform vec3 bark, onPale, onDeep;
    uniform float mute;
    void main() {
      vec3 n = facing();
      float light = clamp(litBy(n) + vRipple, -1.0, 1.0);
      vec3 cane = onRamp(vBand, light);
      vec3 line = dot(cane, vec3(0.3, 0.59, 0.11)) < 0.4 ? onDeep : onPale;
      cane = mix(cane, vec3(dot(cane, vec3(0.333)) * 0.4 + 0.56 * dot(onRamp(0.0, 0.0), vec3(0.333))), mute);
      float steep = smoothstep(0.06, 0.34, abs(dot(n, normalize(vEye))));
      float drawn = max(0.38 * lineAt(vLevel, 0.5), 0.62 * lineAt(vLevel * 0.5, 0.8));
      cane = mix(cane, line, drawn * (1.0 - 0.8 * mute) * steep);
      vec3 wood = bark * (1.0 + 0.13 * grain()) * (1.0 + 0.12 * litBy(n));
      gl_FragColor = vec4(vKnown < 0.5 ? wood : cane, opacity);
    }`;
  const uniforms = {
    ramp: { value: texture },
    bands: { value: bands },
    bark: { value: shaderColour(bark) },
    onPale: { value: shaderColour(contour.onPale) },
    onDeep: { value: shaderColour(contour.onDeep) },
    mute: { value: mute },
  };
  return material(
    RAMP + fragment,
    light,
    uniforms,
    (band, known) => (known < 0.5 ? wood : colourAt(band)),
    opacity,
  );
}

/**
 * A difference in the ramp of the flat map: hatched at 45 degrees for more, ringed for less. Vertices with `known` under
 * 0.5 are cut away, so that the border is the measurable region's own.
 */
export function differenceMaterial(theme: Theme, light: Light): ShaderMaterial {
  const { texture, bands, colourAt } = rampTexture('difference', theme);
  const fragment = /* glsl */ `
    void main() {
      if (vKnown < 0.5) discard;
      vec3 colour = onRamp(vBand, clamp(0.7 * litBy(facing()), -1.0, 1.0));
      vec3 mark = colour * 0.6;
      if (vBand > 0.5 * bands) {
        float across = (vPlace.x + vPlace.y) * 1.9;
        float soft = fwidth(across);
        colour = mix(mark, colour, 0.45 + 0.55 * smoothstep(0.07 - soft, 0.07 + soft, abs(fract(across) - 0.5)));
      } else {
        vec2 cell = fract(vPlace.xy * 2.2) - 0.5;
        float soft = fwidth(vPlace.x * 2.2);
        colour = mix(colour, mark, 0.8 * smoothstep(0.06 + soft, 0.06, abs(length(cell) - 0.27)));
      }
      gl_FragColor = vec4(mix(colour, mark, 0.35 * lineAt(vBand * 0.5, 0.5)), opacity);
    }`;
  const uniforms = { ramp: { value: texture }, bands: { value: bands } };
  return material(RAMP + fragment, light, uniforms, (band, known) =>
    known < 0.5 ? undefined : colourAt(band),
  );
}

/**
 * Cane against a lamp: `level` is all cane in the way, mm. Cane lets red through better than blue, so that thick cane
 * glows deep: drawn for the eye, common practice, no source.
 */
export function glowMaterial(
  attenuationPerMm: number,
  lamp: readonly [number, number, number],
  light: Light,
): ShaderMaterial {
  const fragment = /* glsl */ `
    uniform vec3 lamp;
    uniform float attenuation;
    void main() {
      vec3 share = lamp * exp(-attenuation * vLevel * vec3(0.75, 1.3, 2.6));
      gl_FragColor = vec4(mix(12.92 * share, 1.055 * pow(share, vec3(1.0 / 2.4)) - 0.055, step(0.0031308, share)), vKnown < 0.5 ? 0.0 : 1.0);
    }`;
  const uniforms = { lamp: { value: new Vector3(...lamp) }, attenuation: { value: attenuationPerMm } };
  return material(fragment, light, uniforms, () => undefined);
}

/** One colour under the light: cut faces, thread, metal, glass. */
export function plainMaterial(
  colour: string,
  light: Light,
  { grain = 0, gloss = 0, opacity = 1 }: { grain?: number; gloss?: number; opacity?: number } = {},
): ShaderMaterial {
  const fragment = /* glsl */ `
    uniform vec3 colour;
    uniform float grained, gloss;
    void main() {
      vec3 n = facing();
      float shine = pow(max(dot(n, normalize(towards + normalize(vEye))), 0.0), 40.0);
      vec3 seen = colour * (1.0 + grained * grain()) * (1.0 + 0.22 * litBy(n)) + gloss * rake * shine;
      gl_FragColor = vec4(seen, opacity);
    }`;
  const uniforms = {
    colour: { value: shaderColour(colour) },
    grained: { value: grain },
    gloss: { value: gloss },
  };
  const own = shaderColour(colour).toArray();
  return material(fragment, light, uniforms, () => own, opacity);
}

/** Strokes to come: hatched along the reed; cut away where `known`, mm inside their outline, is below 0. */
export function paintMaterial(colour: string, light: Light): ShaderMaterial {
  const fragment = /* glsl */ `
    uniform vec3 colour;
    void main() {
      if (vKnown < 0.0) discard;
      float soft = fwidth(vPlace.x * 2.6);
      float dark = 1.0 - smoothstep(0.09 - soft, 0.09 + soft, abs(fract(vPlace.x * 2.6) - 0.5));
      gl_FragColor = vec4(mix(colour * 1.15, colour * 0.6, dark), 1.0);
    }`;
  const own = shaderColour(colour).toArray();
  return material(fragment, light, { colour: { value: shaderColour(colour) } }, (_, known) =>
    known < 0 ? undefined : own,
  );
}
