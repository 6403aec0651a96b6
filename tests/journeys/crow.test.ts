import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, type Browser, type BrowserContext, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { noteHz } from '../../src/climate/pitch.ts';
import { launchOptions, watchedPage } from './launch.ts';
import { serve, type Served } from './static-server.ts';

const RATE = 48_000;
const SECONDS = 12;
const OFF_CENTS = -12;

/** A recording of one channel, 16 bits a sample, of two tones an octave apart. */
function recording(lowHz: number): Buffer {
  const count = RATE * SECONDS;
  const bytes = Buffer.alloc(44 + 2 * count);
  bytes.write('RIFF', 0);
  bytes.writeUInt32LE(36 + 2 * count, 4);
  bytes.write('WAVEfmt ', 8);
  bytes.writeUInt32LE(16, 16);
  bytes.writeUInt16LE(1, 20);
  bytes.writeUInt16LE(1, 22);
  bytes.writeUInt32LE(RATE, 24);
  bytes.writeUInt32LE(2 * RATE, 28);
  bytes.writeUInt16LE(2, 32);
  bytes.writeUInt16LE(16, 34);
  bytes.write('data', 36);
  bytes.writeUInt32LE(2 * count, 40);
  for (let i = 0; i < count; i++) {
    const angle = (2 * Math.PI * lowHz * i) / RATE;
    bytes.writeInt16LE(Math.round(8000 * Math.sin(angle) + 4000 * Math.sin(2 * angle)), 44 + 2 * i);
  }
  return bytes;
}

let folder: string;
let served: Served;
let browser: Browser;
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'crow-'));
  const file = join(folder, 'crow.wav');
  writeFileSync(file, recording(noteHz('C5', 442)! * 2 ** (OFF_CENTS / 1200)));
  const { executablePath, args } = launchOptions();
  const heard = ['--use-fake-device-for-media-stream', `--use-file-for-fake-audio-capture=${file}`];
  [served, browser] = await Promise.all([
    serve(),
    chromium.launch({ executablePath, args: [...args, ...heard] }),
  ]);
});
afterAll(async () => {
  await browser.close();
  await served.close();
  rmSync(folder, { recursive: true });
});

/** The notes of an invented reed. */
async function notesOf(context: BrowserContext): Promise<{ page: Page; problems: readonly string[] }> {
  const { page, problems } = await watchedPage(context);
  await page.goto(served.url);
  await page.getByRole('button', { name: 'Look at invented reeds' }).click();
  await page.getByRole('link', { name: /M-142/ }).first().click();
  await page.getByRole('link', { name: 'Notes and trials' }).click();
  await page.getByRole('button', { name: 'Listen to the crow' }).click();
  return { page, problems };
}

describe('a crow by the microphone', () => {
  it('is heard within 3 cents through the browser’s own sound, and kept with the trial', async () => {
    const context = await browser.newContext({ permissions: ['microphone'] });
    const { page, problems } = await notesOf(context);
    const said = page.locator('bench-crow-listener .heard');
    await said.waitFor();
    const [, note, cents] = /(\S+) ([−+]?[\d.]+) ±/.exec((await said.textContent()) ?? '') ?? [];
    expect(note).toBe('C5');
    expect(Math.abs(Number(cents!.replace('−', '-')) - OFF_CENTS)).toBeLessThan(3);
    await page.getByText(/Crow C5 −1\d ±\d cents, wandered by .* by microphone/).waitFor();
    expect(problems).toEqual([]);
    await context.close();
  });

  it('says what to do when the microphone is refused', async () => {
    const context = await browser.newContext();
    const { page, problems } = await notesOf(context);
    await page.getByText('The microphone was refused. Allow it for this page').waitFor();
    expect(problems).toEqual([]);
    await context.close();
  });
});
