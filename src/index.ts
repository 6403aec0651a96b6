// The core's public face: from a file of readings to figures, without a screen. Each group is a file.
export * from './face/read.ts';
export * from './face/fit.ts';
export * from './face/figures.ts';
export * from './face/plan.ts';
export * from './face/files.ts';
