import { describe, expect, it } from 'vitest';
import { checkNoticed, noticedPackages } from '../../../scripts/notices.mjs';

describe('notices of what is built in', () => {
  it('carry a text for each package', () => {
    const packages = noticedPackages();
    expect(packages.map(({ name }) => name)).toEqual(
      expect.arrayContaining(['lit', 'three', 'dexie', 'zod']),
    );
    for (const { name, texts } of packages) expect(texts.join(''), name).toMatch(/copyright/i);
  });

  it('are missed by the build, wherever the package lies, and ours are not asked for', () => {
    const packages = noticedPackages().filter(({ name }) => name !== 'zod' && name !== '@lit/task');
    const check = (...ids: string[]) => checkNoticed(ids, packages);
    expect(() =>
      check('/p/src/a.ts', '/p/node_modules/lit/index.js', 'node_modules/dexie/x.mjs'),
    ).not.toThrow();
    expect(() => check('/p/node_modules/zod/v4/core.js')).toThrow('without the text of a licence: zod.');
    expect(() => check('node_modules/a/node_modules/zod/index.js')).toThrow(': zod.');
    expect(() => check('C:\\p\\node_modules\\@lit\\task\\task.js')).toThrow(': @lit/task.');
  });
});
