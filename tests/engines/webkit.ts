import { Builder, By, Capabilities, type WebDriver } from 'selenium-webdriver';
import { byId, type Hand, seeing } from './hand.ts';

/** WebKitGTK's MiniBrowser, driven over its own WebDriver server. */
export async function openWebKit(server: string, miniBrowser: string): Promise<Hand> {
  const capabilities = new Capabilities({
    browserName: 'MiniBrowser',
    'webkitgtk:browserOptions': { binary: miniBrowser, args: ['--automation'] },
  });
  const driver: WebDriver = await new Builder().usingServer(server).withCapabilities(capabilities).build();
  const evaluate = (expression: string) => driver.executeScript(`return ${expression}`);
  return {
    goto: async (url) => {
      // Where only what is behind the # differs, the page stays as it is.
      await driver.get('about:blank');
      await driver.get(url);
    },
    see: seeing(evaluate),
    async click(id) {
      const element = await driver.findElement(By.css(byId(id)));
      await driver.executeScript('arguments[0].scrollIntoView({ block: "center" })', element);
      await element.click();
    },
    async hold(id) {
      const element = await driver.findElement(By.css(byId(id)));
      await driver.actions().move({ origin: element }).press().pause(1100).release().perform();
    },
    text: async (id) => String(await evaluate(`document.querySelector('${byId(id)}')?.textContent ?? ''`)),
    attribute: async (id, name) =>
      (await evaluate(`document.querySelector('${byId(id)}')?.getAttribute('${name}') ?? null`)) as
        | string
        | null,
    give: async (id, file) => (await driver.findElement(By.css(byId(id)))).sendKeys(file),
    evaluate,
    // WebDriver's classic protocol tells nothing of the page's console.
    faults: () => null,
    close: () => driver.quit(),
  };
}
