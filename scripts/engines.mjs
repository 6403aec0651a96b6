// Goes a maker's way through the built page in Firefox and in WebKit: npm run engines.
import { rmSync } from 'node:fs';
import { BUILD, buildWhatChanged } from './build-what-changed.mjs';
import { ensurePackages } from './ensure.mjs';
import { runPlainly } from './plain-error.mjs';

const PORT = 4640;

async function tryEngine(open, programs, address) {
  const window = await open(programs);
  try {
    const { goTheWay } = await import('./engines/maker-path.mjs');
    const results = await goTheWay(window, address);
    console.log(`\n${window.version}`);
    for (const { name, note, trouble } of results)
      console.log(`  ${trouble ? 'FAILED' : 'ok    '} ${[name, note, trouble].filter(Boolean).join(': ')}`);
    return results.every(({ trouble }) => trouble === '');
  } finally {
    await window.close();
  }
}

await runPlainly(async () => {
  ensurePackages();
  await buildWhatChanged();
  const { enginePrograms } = await import('./engines/programs.mjs');
  const programs = enginePrograms();
  const [{ openFirefox }, { openWebKit }, { recordedPage }, { serveBench }] = await Promise.all([
    import('./engines/firefox.mjs'),
    import('./engines/webkit.mjs'),
    import('./engines/recorded-page.mjs'),
    import('./serve.mjs'),
  ]);
  const folder = await recordedPage(BUILD);
  const served = await serveBench({ folder, port: PORT, version: 'engines', ready: Promise.resolve() });
  try {
    let isFine = true;
    for (const open of [openFirefox, openWebKit])
      isFine = (await tryEngine(open, programs, `http://localhost:${PORT}/`)) && isFine;
    return isFine ? 0 : 1;
  } finally {
    served.close();
    rmSync(folder, { recursive: true });
  }
});
