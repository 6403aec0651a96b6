import { createServer as createHttp, type RequestListener } from 'node:http';
import { createServer, type AddressInfo, type Server } from 'node:net';
import { afterEach, describe, expect, it } from 'vitest';
import { IDENTITY_PATH, whoAnswers } from '../../../scripts/answering.mjs';

let server: Server | undefined;
afterEach(() => new Promise<void>((done) => (server ? server.close(() => done()) : done())));

async function portOf(started: Server, host = '127.0.0.1'): Promise<number> {
  server = started;
  await new Promise<void>((listening) => started.listen(0, host, listening));
  return (started.address() as AddressInfo).port;
}

const web = (listener: RequestListener) => portOf(createHttp({ keepAlive: false }, listener));

describe('who answers at a port', () => {
  it('is nobody where nothing listens', async () => {
    const port = await portOf(createServer());
    await new Promise<void>((closed) => server!.close(() => closed()));
    server = undefined;
    expect(await whoAnswers(port)).toBeUndefined();
  });

  it('is a bench that says so', async () => {
    const port = await web(({ url }, response) => {
      response.end(url === IDENTITY_PATH ? '{"name":"Hundredths","version":"9.8.7"}' : '');
    });
    expect(await whoAnswers(port)).toEqual({ bench: true, version: '9.8.7' });
  });

  it('is a stranger by the title of its page, else by its server’s name, fit to print', async () => {
    const titled = await web((_, response) => response.end('<title>Invented\u001b[31m\nwiki</title>'));
    expect(await whoAnswers(titled)).toEqual({ bench: false, name: 'Invented [31m wiki' });
    await new Promise<void>((closed) => server!.close(() => closed()));
    const named = await web((_, response) => response.setHeader('Server', 'Invented/1.0').end('{"name":1}'));
    expect(await whoAnswers(named)).toEqual({ bench: false, name: 'Invented/1.0' });
  });

  it('is a stranger without a name where no web page is served', async () => {
    const port = await portOf(
      createServer((socket) =>
        socket
          .on('error', () => undefined)
          .resume()
          .end('220 ready\r\n'),
      ),
    );
    expect(await whoAnswers(port)).toEqual({ bench: false, name: undefined });
  });
});
