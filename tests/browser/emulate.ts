import { executeServerCommand } from '@web/test-runner-commands';

const FEATURES = [
  'prefers-color-scheme',
  'prefers-contrast',
  'prefers-reduced-motion',
  'forced-colors',
] as const;

/** Sets the media features named and lets all others follow the system again. */
export async function emulateFeatures(
  features: Partial<Record<(typeof FEATURES)[number], string>>,
): Promise<void> {
  const payload = FEATURES.map((name) => ({ name, value: features[name] ?? '' }));
  await executeServerCommand('emulate-features', payload);
}
