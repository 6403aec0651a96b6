// Opens the bench: builds what has changed, serves it on this machine, and says where.
import { spawn } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { whoAnswers } from './answering.mjs';
import { BUILD, buildWhatChanged } from './build-what-changed.mjs';
import { ensurePackages } from './ensure.mjs';
import { PlainError, runPlainly } from './plain-error.mjs';
import { openerCommand } from './programs.mjs';

const USUAL_PORT = 4600;

function wantedPort(text = String(USUAL_PORT)) {
  const port = /^\d{1,5}$/.test(text) ? Number(text) : 0;
  if (port >= 1 && port <= 65_535) return port;
  throw new PlainError(
    `PORT must be a whole number from 1 to 65535, as in PORT=${USUAL_PORT}; it is "${text}".`,
  );
}

const OPTIONS = ['--no-open', '--home', '--network'];

/** @throws {PlainError} naming what it does not know */
function optionsOf(args) {
  const unknown = args.find((arg) => !OPTIONS.includes(arg));
  if (unknown !== undefined)
    throw new PlainError(`"npm start" knows ${OPTIONS.join(', ')}, not "${unknown}".`);
  const isHome = args.includes('--home');
  if (args.includes('--network') && !isHome)
    throw new PlainError(
      '--network goes with --home: only a shared case is served to other devices, by https.',
    );
  return { isOpening: !args.includes('--no-open'), isHome, isOnNetwork: args.includes('--network') };
}

function openBrowser(address, isOpening) {
  const command = isOpening ? openerCommand(address) : undefined;
  if (!command) return;
  const [program, ...args] = command;
  // Whoever has no such program opens the printed address.
  spawn(program, args, { stdio: 'ignore', detached: true })
    .on('error', () => undefined)
    .unref();
}

/** Every step of getting ready may fail where the page as it was built last still opens. */
async function orAsBuiltLast(step) {
  try {
    await step();
    return true;
  } catch (error) {
    if (!existsSync(`${BUILD}/index.html`)) throw error;
    console.error(`${error.message} The bench opens as it was built last.`);
    return false;
  }
}

const ANOTHER_LIBRARY =
  'but the library belongs to the port: another port shows another one, and yours stays where it is';

function saysTaken(port, { name }) {
  const who = name ? `another program, which calls itself "${name}"` : 'another program';
  const other = port === USUAL_PORT ? port + 1 : USUAL_PORT;
  return new PlainError(
    `Port ${port} is taken by ${who}: end it, or give PORT=${other}, ${ANOTHER_LIBRARY}.`,
  );
}

/** Serves, or finds that the bench is open already. @throws {PlainError} when the port cannot be had */
async function openAt(port, ready) {
  const before = await whoAnswers(port);
  if (before?.bench) return undefined;
  if (before) throw saysTaken(port, before);
  const { version } = JSON.parse(readFileSync('package.json', 'utf8'));
  const { serveBench } = await import('./serve.mjs');
  try {
    return await serveBench({ folder: BUILD, port, version, ready });
  } catch (error) {
    if (error.code === 'EACCES')
      throw new PlainError(
        `Port ${port} is kept for the system: give a PORT above 1023, ${ANOTHER_LIBRARY}.`,
      );
    if (error.code !== 'EADDRINUSE') throw error;
    const now = await whoAnswers(port);
    if (now?.bench) return undefined;
    throw saysTaken(port, now ?? {});
  }
}

/** Serves page and shared case to a household, and says how to come to them. */
async function openHome(port, isOnNetwork) {
  if (await orAsBuiltLast(() => ensurePackages())) await orAsBuiltLast(buildWhatChanged);
  const [{ serveHome }, { codeOf }] = await Promise.all([
    import('./home/serve-home.mjs'),
    import('./home/code.mjs'),
  ]);
  const served = await serveHome({ folder: BUILD, home: '.home', port, isOnNetwork }).catch((error) => {
    if (error.code === 'EADDRINUSE') throw saysTaken(port, {});
    throw error;
  });
  const { address, caseAddress, certificateAddress, name, password } = served;
  console.log(`\n  Hundredths is open at ${address}, on ${isOnNetwork ? 'this network' : 'this machine alone'}.
  To share a case, enter in Setup:
    Address   ${caseAddress}
    Name      ${name}
    Password  ${password}
  Each device must trust the certificate once: ${certificateAddress}
  How: docs/sharing/README.md. Stop it with Ctrl C.\n
${codeOf(address)}\n`);
  return address;
}

await runPlainly(async () => {
  const { isOpening, isHome, isOnNetwork } = optionsOf(process.argv.slice(2));
  if (isHome)
    return openBrowser(await openHome(wantedPort(process.env.PORT ?? '4601'), isOnNetwork), isOpening);
  const port = wantedPort(process.env.PORT);
  const address = `http://localhost:${port}/`;
  const arePackagesNew = await orAsBuiltLast(() => ensurePackages());
  let letIn;
  const ready = new Promise((resolve) => (letIn = resolve));
  const served = await openAt(port, ready);
  if (!served) console.log(`\n  Hundredths is open already at ${address}\n`);
  else {
    try {
      if (arePackagesNew) await orAsBuiltLast(buildWhatChanged);
    } catch (error) {
      served.close();
      throw error;
    }
    letIn();
    console.log(`\n  Hundredths is open at ${address}\n  Stop it with Ctrl C.\n`);
  }
  openBrowser(address, isOpening);
});
