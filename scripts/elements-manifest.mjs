// The description of the public elements that editors read, made from their sources by the analyzer.
import { readdirSync, readFileSync } from 'node:fs';
import { create, ts } from '@custom-elements-manifest/analyzer/index.js';
import { litPlugin } from '@custom-elements-manifest/analyzer/src/features/framework-plugins/lit/lit.js';

/** What the sheet of readings inherits stands beside the folder. */
const SHEET = 'components/readings-grid/readings-grid.ts';

/** @param {string} folder of the public elements */
export async function elementsManifest(folder) {
  const modules = [
    SHEET,
    ...readdirSync(folder)
      .filter((name) => name.endsWith('.ts') && !name.endsWith('.styles.ts'))
      .map((name) => `${folder}/${name}`),
  ].map((path) => ts.createSourceFile(path, readFileSync(path, 'utf8'), ts.ScriptTarget.ES2022, true));
  const manifest = create({ modules, plugins: litPlugin(), context: { dev: false } });
  for (const declaration of manifest.modules.flatMap(({ declarations = [] }) => declarations)) {
    // What is dispatched by a class stands once more, without its name or under that of what the class is made with.
    declaration.events = declaration.events?.filter(({ name }) => /^(?:bench-|change$)/.test(name ?? ''));
    declaration.members = declaration.members?.filter(
      ({ privacy }) => privacy !== 'private' && privacy !== 'protected',
    );
  }
  // Of modules that are imported as JavaScript.
  return JSON.parse(JSON.stringify(manifest).replaceAll(/\.ts"/g, '.js"'));
}
