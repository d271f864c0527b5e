import { expect } from 'vitest';
import { type Hand, isDrawn, pause, wait } from './hand.ts';

/** What is walked in another engine. Each walk ends with what it must have seen. */

/** Practice on the simulated rig: a reading, a stage, the end of the run, its review. */
export async function practise(hand: Hand, origin: string): Promise<void> {
  await hand.goto(origin);
  await hand.see(['practice']);
  await hand.click('practice');
  await hand.see(['use-practice']);
  await hand.click('use-practice');
  await hand.see(['zero']);
  // The zero is taken of a reading that stands still.
  await wait('zero is taken', async () => {
    if ((await hand.see(['zero', 'stage'], 1000)) === 'stage') return true;
    await hand.click('zero');
    return false;
  });
  await wait('a reading is shown', async () =>
    /^-?\d+\.\d\d/.test((await hand.text('pressure-value')).trim()),
  );
  expect(await hand.attribute('pressure', 'data-trust')).toBe('good');
  expect(await hand.attribute('stage', 'data-stage')).toBe('prepare');
  // A key takes no press that may have been meant for what stood there before.
  await wait('the stage is the next one', async () => {
    await hand.click('stage-key');
    await pause(800);
    return (await hand.attribute('stage', 'data-stage')) === 'seat';
  });
  await hand.see(['zone-ladder']);
  await wait('the trace is drawn', async () => (await hand.evaluate(isDrawn('lanes'))) === true);

  await wait(
    'the run is ended',
    async () => {
      // A busy machine may show the review of the press before.
      const there = await hand.see(['review-trace', 'drawer', 'more'], 2000);
      if (there === 'review-trace') return true;
      if (there === 'more') await hand.click('more');
      await pause(800);
      await hand.click('more-run');
      await pause(800);
      await hand.hold('end-run');
      return (await hand.see(['review-trace', 'drawer'], 3000)) === 'review-trace';
    },
    90_000,
  );
  await wait('the review is drawn', async () => (await hand.evaluate(isDrawn('review-trace'))) === true);
}

/** A sealed record from elsewhere: verified, opened, reviewed, its certificate made. */
export async function verify(hand: Hand, origin: string, file: string): Promise<void> {
  await hand.goto(`${origin}/#/verify`);
  await hand.see(['drop']);
  await hand.give('verify-file', file);
  await hand.see(['verdict'], 60_000);
  // Nobody here knows whose key it is; everything else of the record is as it was sealed.
  expect(await hand.attribute('verdict', 'data-verdict')).toBe('unknown-signer');
  await hand.click('open-record');
  await hand.see(['review-trace']);
  await wait(
    'the record’s trace is drawn',
    async () => (await hand.evaluate(isDrawn('review-trace'))) === true,
  );
  await hand.see(['certificate']);
  await hand.click('certificate');
  await wait(
    'the certificate stands on the page',
    async () => (await hand.evaluate(`document.querySelector('.certificate h1') !== null`)) === true,
  );
  const said = String(await hand.evaluate(`document.querySelector('.certificate').textContent`));
  expect(said).toContain('What this page does not prove');
  expect(said).not.toMatch(/\b(cured|safe|guaranteed)\b/i);
}

/** The rules for paper are read: of the app around the certificate nothing is printed. */
export async function printable(hand: Hand): Promise<void> {
  const hidden = await hand.evaluate(`(() => {
    const rules = [...document.styleSheets].flatMap((s) => [...s.cssRules]).filter((r) => r.type === CSSRule.MEDIA_RULE && r.media.mediaText === 'print');
    return rules.length > 0 && 'print' in window;
  })()`);
  expect(hidden).toBe(true);
}
