import { spawn, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { createServer, type AddressInfo } from 'node:net';

/** A port that nobody listens at. */
export async function freePort(): Promise<number> {
  const server = createServer().listen(0, '127.0.0.1');
  await once(server, 'listening');
  const { port } = server.address() as AddressInfo;
  server.close();
  await once(server, 'close');
  return port;
}

export interface Run {
  readonly said: string;
  readonly complained: string;
  readonly code: number | null;
}

function start(port: number | string) {
  const child = spawn(process.execPath, ['scripts/start.mjs', '--no-open'], {
    env: { ...process.env, PORT: String(port) },
  });
  const texts = { said: '', complained: '' };
  child.stdout.setEncoding('utf8').on('data', (chunk: string) => (texts.said += chunk));
  child.stderr.setEncoding('utf8').on('data', (chunk: string) => (texts.complained += chunk));
  return { child, texts };
}

/** Runs the command to its end. */
export async function runToEnd(port: number | string): Promise<Run> {
  const { child, texts } = start(port);
  const [code] = (await once(child, 'close')) as [number | null];
  return { ...texts, code };
}

export interface Started {
  readonly url: string;
  readonly port: number;
  readonly stop: () => Promise<void>;
}

async function stop(child: ChildProcess): Promise<void> {
  if (child.exitCode !== null || child.signalCode !== null) return;
  child.kill();
  await once(child, 'close');
}

/** Runs the command until it says where the bench is. */
export async function startBench(port: number): Promise<Started> {
  const { child, texts } = start(port);
  await new Promise<void>((open, fail) => {
    child.stdout.on('data', () => {
      if (texts.said.includes('is open at')) open();
    });
    child.once('close', () => fail(new Error(`ended: ${texts.said}${texts.complained}`)));
  });
  return { url: `http://localhost:${port}/`, port, stop: () => stop(child) };
}
