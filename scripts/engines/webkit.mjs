import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { request } from 'node:http';
import { createServer } from 'node:net';

/** Keys that are not characters. Source: W3C WebDriver, 17.4.2, keyboard actions. */
const KEYS = { Enter: '\uE007' };

async function freePort() {
  const server = createServer().listen(0, '127.0.0.1');
  await once(server, 'listening');
  const { port } = server.address();
  server.close();
  await once(server, 'close');
  return port;
}

/** A screen that nobody sees; resolves to its name. */
async function hiddenScreen(xvfb) {
  const program = spawn(xvfb, ['-displayfd', '3', '-screen', '0', '1440x900x24', '-nolisten', 'tcp'], {
    stdio: ['ignore', 'ignore', 'ignore', 'pipe'],
  });
  const [number] = await once(program.stdio[3], 'data');
  return { program, name: `:${String(number).trim()}` };
}

/** Sends a command of the WebDriver protocol; resolves to its value. @throws with the driver's own words */
function send(port, method, path, body) {
  return new Promise((resolve, reject) => {
    const sent = request({ host: '127.0.0.1', port, method, path }, async (response) => {
      const chunks = await response.toArray();
      const { value } = JSON.parse(Buffer.concat(chunks).toString());
      if (response.statusCode === 200) resolve(value);
      else reject(new Error(`${path}: ${value?.error} ${value?.message}`));
    });
    sent.on('error', reject).end(body && JSON.stringify(body));
  });
}

/** The driver takes a moment until it listens. */
async function whenListening(port) {
  for (let tries = 0; tries < 100; tries++) {
    try {
      return await send(port, 'GET', '/status');
    } catch {
      await new Promise((resolve) => setTimeout(resolve, 100));
    }
  }
  throw new Error('The driver of WebKit does not answer.');
}

const keyActions = (key) => [
  { type: 'keyDown', value: KEYS[key] ?? key },
  { type: 'keyUp', value: KEYS[key] ?? key },
];

/** A window of WebKitGTK, by WebDriver. */
export async function openWebKit({ webkitDriver, miniBrowser, xvfb }) {
  const screen = await hiddenScreen(xvfb);
  const port = await freePort();
  const driver = spawn(webkitDriver, [`--port=${port}`, '--host=127.0.0.1'], {
    env: { ...process.env, DISPLAY: screen.name },
    stdio: 'ignore',
  });
  const end = () => {
    driver.kill();
    screen.program.kill();
  };
  try {
    await whenListening(port);
    const options = { binary: miniBrowser, args: ['--automation'] };
    const { sessionId, capabilities } = await send(port, 'POST', '/session', {
      capabilities: { alwaysMatch: { 'webkitgtk:browserOptions': options } },
    });
    const tell = (method, path, body) => send(port, method, `/session/${sessionId}${path}`, body);
    const run = (script, ...args) => tell('POST', '/execute/sync', { script, args });
    return {
      version: `WebKitGTK ${capabilities.browserVersion}`,
      open: (url) => tell('POST', '/url', { url }),
      run,
      async giveFile(body, path) {
        const [id] = Object.values(await run(body));
        await tell('POST', `/element/${id}/value`, { text: path });
      },
      type: (keys) =>
        tell('POST', '/actions', {
          actions: [{ type: 'key', id: 'keys', actions: keys.flatMap(keyActions) }],
        }),
      async close() {
        await tell('DELETE', '').catch(() => undefined);
        end();
      },
    };
  } catch (error) {
    end();
    throw error;
  }
}
