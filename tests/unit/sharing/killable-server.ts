import { spawn, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { freePort } from '../../journeys/started.ts';

/** A shared case in a process of its own, on one file and one port, that is killed and started again. */
export class KillableServer {
  readonly address: string;
  private readonly path: string;
  private readonly port: number;
  private readonly origins: readonly string[];
  private child: ChildProcess | undefined;

  private constructor(path: string, port: number, origins: readonly string[]) {
    this.address = `http://127.0.0.1:${port}/case`;
    this.path = path;
    this.port = port;
    this.origins = origins;
  }

  /** @param origins Pages that may ask it. */
  static async on(path: string, origins: readonly string[] = []): Promise<KillableServer> {
    const server = new KillableServer(path, await freePort(), origins);
    await server.start();
    return server;
  }

  async start(): Promise<void> {
    const args = ['tests/unit/sharing/server-process.mjs', this.path, String(this.port), ...this.origins];
    this.child = spawn(process.execPath, args);
    await once(this.child.stdout!, 'data');
  }

  /** As a loss of power would end it. */
  async kill(): Promise<void> {
    const { child } = this;
    if (!child || child.exitCode !== null || child.signalCode !== null) return;
    child.kill('SIGKILL');
    await once(child, 'close');
  }
}
