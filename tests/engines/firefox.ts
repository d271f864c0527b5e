import puppeteer from 'puppeteer-core';
import { byId, type Hand, pause, seeing } from './hand.ts';

/** Firefox, driven over WebDriver BiDi. */
export async function openFirefox(executablePath: string): Promise<Hand> {
  const browser = await puppeteer.launch({
    browser: 'firefox',
    executablePath,
    headless: true,
    defaultViewport: { width: 1280, height: 800 },
  });
  const page = await browser.newPage();
  const faults: string[] = [];
  page.on('pageerror', (error) => faults.push(String(error)));
  page.on('console', (message) => {
    if (message.type() === 'error') faults.push(message.text());
  });
  const evaluate = (expression: string) => page.evaluate(expression);
  const hand: Hand = {
    goto: async (url) => {
      await page.goto(url);
    },
    see: seeing(evaluate),
    async click(id) {
      const element = await page.waitForSelector(byId(id), { visible: true, timeout: 10_000 });
      await element?.click();
    },
    async hold(id) {
      const element = await page.waitForSelector(byId(id), { visible: true, timeout: 10_000 });
      await element?.hover();
      await page.mouse.down();
      await pause(1100);
      await page.mouse.up();
    },
    text: async (id) => String(await evaluate(`document.querySelector('${byId(id)}')?.textContent ?? ''`)),
    attribute: async (id, name) =>
      (await evaluate(`document.querySelector('${byId(id)}')?.getAttribute('${name}') ?? null`)) as
        | string
        | null,
    async give(id, file) {
      const field = await page.$(byId(id));
      if (field === null) throw new Error(`no field ${id}`);
      await (field as Awaited<ReturnType<typeof page.$<'input'>>>)!.uploadFile(file);
    },
    evaluate,
    faults: () => faults,
    close: () => browser.close(),
  };
  return hand;
}
