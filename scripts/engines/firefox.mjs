import puppeteer from 'puppeteer-core';

/** A window of Firefox, by WebDriver BiDi. */
export async function openFirefox({ firefox }) {
  const browser = await puppeteer.launch({ browser: 'firefox', executablePath: firefox, headless: true });
  const page = await browser.newPage();
  await page.setViewport({ width: 1440, height: 900 });
  return {
    version: await browser.version(),
    open: (address) => page.goto(address),
    // Through the driver itself, as a function declared there: the page's policy forbids making one from text.
    run: (body, ...args) => page.evaluate(`(function () { ${body} })(...${JSON.stringify(args)})`),
    async giveFile(body, path) {
      const handle = await page.evaluateHandle(`(() => { ${body} })()`);
      await handle.asElement().uploadFile(path);
    },
    async type(keys) {
      for (const key of keys) await page.keyboard.press(key);
    },
    print: async () => Buffer.from(await page.pdf()),
    close: () => browser.close(),
  };
}
