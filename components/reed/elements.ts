// Every public element, for those who load them together.
export * from './reed.ts';
export * from './reed-balance.ts';
export * from './reed-beside.ts';
export * from './reed-events.ts';
export * from './reed-lamp.ts';
export * from './reed-map.ts';
export * from './reed-opening.ts';
export * from './reed-profile.ts';
export * from './reed-readings.ts';
export * from './reed-relief.ts';
export * from './reed-taken.ts';
export * from './reed-zones.ts';
