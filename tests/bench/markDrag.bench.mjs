import { chromium } from 'playwright-core';
import { CHROMIUM_FLAGS } from '../../src/site/commands/chromium.mjs';
import { serve } from '../../src/site/commands/serve.mjs';

/** One frame at 60 Hz. */
const GOAL = 16.7;
const THROTTLE = 4;
const MOVES = { before: 40, timed: 150 };
/** Frames as soon as they are ready: no waiting for a display. */
const FLAGS = [...CHROMIUM_FLAGS, '--disable-frame-rate-limit', '--disable-gpu-vsync'];

/**
 * A mark dragged in the first hanging picture of the demo sheet, on the built page, with the processor slowed down four
 * times: from each move of the pointer until the frame with the new answer is painted.
 */
export default async function markDrag({ dist, chromium: executablePath }) {
  const served = await serve({ folder: dist });
  const browser = await chromium.launch({ executablePath, args: FLAGS });
  try {
    const tab = await browser.newPage({ viewport: { width: 1280, height: 900 } });
    await tab.goto(`${served.address}resultant-lines.html#e3`, { waitUntil: 'networkidle' });
    const calculator = tab.locator('plumb-photographs');
    await calculator.locator('plumb-film-strip .frame').nth(1).click();
    const mark = calculator.locator('[data-role="mark A"]').first();
    await mark.waitFor();
    await mark.scrollIntoViewIfNeeded();
    const box = await mark.boundingBox();
    if (!box) throw new Error('The mark is not on the page.');
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    const shown = () => tab.locator('plumb-title-block .value').allTextContents();
    const before = await shown();

    await tab.evaluate(watchFrames);
    await tab.mouse.move(x, y);
    await tab.mouse.down();
    await tab.mouse.move(x + 2, y + 1);
    const slow = await tab.context().newCDPSession(tab);
    await slow.send('Emulation.setCPUThrottlingRate', { rate: THROTTLE });
    const whole = [];
    const work = [];
    for (let n = -MOVES.before; n < MOVES.timed; n++) {
      // A slow spiral: each move leads to a new place, as a finger does.
      const reach = 12 + 4 * Math.sin(n / 20);
      await tab.evaluate(() => globalThis.nextMove());
      await tab.mouse.move(x + reach * Math.sin(n / 7), y + reach * Math.cos(n / 7));
      const frame = await tab.evaluate(() => globalThis.painted);
      if (n < 0) continue;
      whole.push(frame.painted - frame.moved);
      work.push(frame.painted - frame.begun);
    }
    await slow.send('Emulation.setCPUThrottlingRate', { rate: 1 });
    if (String(await shown()) === String(before)) throw new Error('The answer did not move with the mark.');
    await tab.mouse.up();
    const rows = (name, values) => [
      { name: `${name}, median`, value: quantile(values, 0.5), unit: 'ms' },
      { name: `${name}, p95`, value: quantile(values, 0.95), unit: 'ms' },
    ];
    const [median, p95] = rows('move of a mark to painted answer', whole);
    return [median, { ...p95, goal: GOAL }, ...rows('of that, the frame itself', work)];
  } finally {
    await browser.close();
    await served.close();
  }
}

/**
 * In the page: `painted` is settled once a frame has been painted in which something beside the picture changed, as
 * only a new answer does, since the last call of nextMove().
 */
function watchFrames() {
  const channel = new MessageChannel();
  let settle;
  let moved;
  let begun;
  let answered = false;
  const observer = new MutationObserver(() => (answered = true));
  const observe = (root) => {
    observer.observe(root, { subtree: true, childList: true, characterData: true, attributes: true });
    for (const element of root.querySelectorAll('*'))
      if (element.shadowRoot && element.localName !== 'plumb-marking-surface') observe(element.shadowRoot);
  };
  observe(document.querySelector('plumb-photographs').shadowRoot);
  const frame = () => {
    begun = performance.now();
    channel.port2.postMessage(null);
  };
  globalThis.nextMove = () => {
    answered = false;
    globalThis.painted = new Promise((resolve) => {
      settle = resolve;
    });
  };
  // A message posted in a frame's callback is delivered once the frame has been laid out and painted.
  channel.port1.addEventListener('message', () => {
    if (answered) settle({ moved, begun, painted: performance.now() });
    else requestAnimationFrame(frame);
  });
  channel.port1.start();
  window.addEventListener(
    'pointermove',
    ({ timeStamp }) => {
      moved = timeStamp;
      requestAnimationFrame(frame);
    },
    { capture: true },
  );
}

const quantile = (values, share) => values.toSorted((a, b) => a - b)[Math.floor(share * (values.length - 1))];
