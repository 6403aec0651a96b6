import type { PropertyValues } from 'lit';

/** Whether any of these properties changed. */
export function isStale(changed: PropertyValues, names: readonly string[]): boolean {
  return names.some((name) => changed.has(name));
}
