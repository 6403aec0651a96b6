import { createServer, request, type Server } from 'node:http';
import { once } from 'node:events';
import { readdirSync } from 'node:fs';
import type { AddressInfo } from 'node:net';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { borrowBrowser, watchedPage, type Borrowed } from './launch.ts';
import { freePort, runToEnd, startBench, type Started } from './started.ts';

let started: Started;
let browser: Borrowed;
beforeAll(async () => {
  [started, browser] = await Promise.all([startBench(await freePort()), borrowBrowser()]);
});
afterAll(async () => {
  await browser.close();
  await started.stop();
});

/** Answers with one text to everything. */
async function stranger(text: string): Promise<{ readonly server: Server; readonly port: number }> {
  const server = createServer((_, response) => {
    response.setHeader('Content-Type', 'text/html').end(text);
  }).listen(0, '127.0.0.1');
  await once(server, 'listening');
  return { server, port: (server.address() as AddressInfo).port };
}

/** Status and headers, as the server at this port gives them for a path and the name it is asked by. */
async function asked(path: string, host = `localhost:${started.port}`) {
  const sent = request({ host: '127.0.0.1', port: started.port, path, headers: { host } }).end();
  const [{ statusCode, headers, resume }] = (await once(sent, 'response')) as [
    { statusCode: number; headers: Record<string, string | undefined>; resume: () => void },
  ];
  void resume;
  sent.destroy();
  return { status: statusCode, headers };
}

describe('what npm start serves', () => {
  it('has the headers that a page cannot carry itself', async () => {
    const [asset] = readdirSync('dist/assets');
    for (const path of ['/', `/assets/${asset}`, '/service-worker.js', '/nothing-here']) {
      const { headers } = await asked(path);
      const policy = headers['content-security-policy'];
      expect(policy, path).toMatch(/script-src 'self';.*frame-ancestors 'none'/);
      // What the bench may ask is for its first script to say.
      expect(policy?.includes("default-src 'none'") && policy.includes('connect-src'), path).toBe(
        path !== '/',
      );
      expect(headers['x-content-type-options']).toBe('nosniff');
      expect(headers['referrer-policy']).toBe('no-referrer');
      expect(headers['cross-origin-opener-policy']).toBe('same-origin');
      const features = headers['permissions-policy']!.split(', ');
      expect(features.filter((feature) => !feature.endsWith('=()'))).toEqual(
        ['clipboard-read', 'clipboard-write', 'fullscreen', 'microphone', 'screen-wake-lock', 'serial'].map(
          (name) => `${name}=(self)`,
        ),
      );
      expect(features).toEqual(expect.arrayContaining(['camera=()', 'geolocation=()', 'usb=()']));
    }
  });

  it('may be kept for ever where its name tells its content, and not at all elsewhere', async () => {
    const [asset] = readdirSync('dist/assets');
    const kept = async (path: string) => (await asked(path)).headers['cache-control'];
    expect(await kept(`/assets/${asset}`)).toBe('public, max-age=31536000, immutable');
    for (const path of ['/', '/index.html', '/service-worker.js', '/manifest.webmanifest', '/configure.js'])
      expect(await kept(path), path).toBe('no-store');
  });

  it('is one origin: other names of this machine lead to it, and other names get nothing', async () => {
    for (const name of ['127.0.0.1', '[::1]']) {
      const { status, headers } = await asked('/?x=1', `${name}:${started.port}`);
      expect([status, headers['location']]).toEqual([308, `${started.url}?x=1`]);
    }
    expect((await asked('/', `bench.invented:${started.port}`)).status).toBe(421);
  });

  it('leaves nothing beside the page within reach', async () => {
    for (const path of ['/../package.json', '/%2e%2e/package.json', '/assets/..%2f..%2fpackage.json'])
      expect((await asked(path)).status, path).toBe(404);
  });
});

/** The page of a stranger on this machine, with the bench in a frame; the text of that frame. */
async function framed(page: Page): Promise<string | undefined> {
  const { server, port } = await stranger(`<title>Frames</title><iframe src="${started.url}"></iframe>`);
  await page.goto(`http://localhost:${port}/`);
  await page.waitForLoadState('networkidle');
  const frame = page.frames()[1]!;
  const text = await frame.evaluate(() => {
    const bench = document.querySelector('bench-app');
    return bench ? `bench: ${bench.shadowRoot?.textContent}` : '';
  });
  server.close();
  return text;
}

describe('the page of npm start', () => {
  it('stays blank in a frame of another origin, before and after its worker is in charge', async () => {
    const context = await browser.newContext();
    const page = await context.newPage();
    expect(await framed(page)).toBe('');
    await page.goto(started.url);
    await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
    expect(await framed(page)).toBe('');
    await context.close();
  });

  it('may ask itself and the address of a shared case that was entered, and nobody else', async () => {
    const [entered, other] = await Promise.all([stranger('a case'), stranger('another')]);
    const context = await browser.newContext();
    const page = await context.newPage();
    await page.goto(started.url);
    const reaches = (port: number) =>
      page.evaluate(
        (url) =>
          window.fetch(url, { mode: 'no-cors' }).then(
            () => true,
            () => false,
          ),
        `http://localhost:${port}/case/_changes`,
      );
    expect(await reaches(entered.port)).toBe(false);
    const enter = (address: string) =>
      page.evaluate((text) => localStorage.setItem('hundredths shared case', text), address);
    await enter(`http://localhost:${entered.port}/case`);
    await page.reload();
    expect([await reaches(entered.port), await reaches(other.port)]).toEqual([true, false]);
    // What is no address is no part of the policy.
    await enter(`http://localhost:${entered.port}/case *`);
    await page.reload();
    expect([await reaches(entered.port), await reaches(other.port)]).toEqual([false, false]);
    await context.close();
    entered.server.close();
    other.server.close();
  });

  it('goes on after one visit when the server has ended: every place opens, and a reading is kept', async () => {
    const own = await startBench(await freePort());
    const context = await browser.newContext();
    const { page, problems } = await watchedPage(context);
    await page.goto(own.url);
    await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
    await own.stop();
    await page.getByRole('button', { name: 'New reed' }).click();
    await page.getByLabel('Label').fill('S-001');
    await page.getByRole('button', { name: 'Keep', exact: true }).click();
    await page.getByRole('link', { name: 'Type readings' }).last().click();
    await page.getByLabel('A, 0.5 mm, left edge', { exact: true }).focus();
    await page.keyboard.type('9');
    await page.keyboard.press('Enter');
    await page.getByText('Pass 0, 1 reading').first().waitFor();
    await page.reload();
    await page.getByText('Pass 0, 1 reading').first().waitFor();
    for (const place of ['case', 'gauge', 'room', 'cane', 'setup', 'bring-in']) {
      await page.goto(`${own.url}#/${place}`);
      await page.locator('bench-app main > *').waitFor();
    }
    expect(problems).toEqual([]);
    await context.close();
  });
});

describe('a port that is taken', () => {
  it('by the bench: says so, and ends well', async () => {
    const { code, said, complained } = await runToEnd(started.port);
    expect(said).toContain(`Hundredths is open already at ${started.url}`);
    expect([code, complained]).toEqual([0, '']);
  });

  it('by a stranger: one sentence names it and the way out, and that the library stays where it is', async () => {
    const { server, port } = await stranger('<title>Invented wiki</title>');
    const { code, said, complained } = await runToEnd(port);
    server.close();
    expect(complained.trim()).toBe(
      `Port ${port} is taken by another program, which calls itself "Invented wiki": end it, or give PORT=4600, but the library belongs to the port: another port shows another one, and yours stays where it is.`,
    );
    expect([code, said.trim()]).toEqual([1, '']);
  });
});
