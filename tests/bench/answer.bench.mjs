import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';

const GOALS = { warm: 4 };
/** Answers before timing starts, for the engine to compile; and answers timed. */
const RUNS = { before: 60, timed: 200 };

/**
 * One answer from the demo sheet's marks, in Node: from nothing, and from the answer before, as while a mark is
 * dragged. Processor time with that of garbage collection, since other programs share the machine; the loop tells
 * what the processor was worth at the time.
 */
export default async function answer({ root }) {
  const { benchAnswer } = await bundled(root);
  const sheet = JSON.parse(readFileSync(join(root, 'assets/demo/bramble.json'), 'utf8'));
  return [...sheet.states.flatMap((state) => timesOf(benchAnswer, state)), loop()];
}

/** src/answer/benchAnswer.ts with all it imports, as one module. */
async function bundled(root) {
  const { build } = await import('vite');
  const outDir = join(root, '.cache/bench');
  await build({
    configFile: false,
    root,
    logLevel: 'warn',
    ssr: { noExternal: true },
    build: {
      ssr: join(root, 'src/answer/benchAnswer.ts'),
      outDir,
      emptyOutDir: true,
      target: 'node20',
      rollupOptions: { output: { entryFileNames: 'benchAnswer.mjs' } },
    },
  });
  return import(pathToFileURL(join(outDir, 'benchAnswer.mjs')).href);
}

function timesOf(benchAnswer, state) {
  const cold = [];
  const warm = [];
  let before = benchAnswer(structuredClone(state));
  for (let n = -RUNS.before; n < RUNS.timed; n++) {
    // As the page does it: all but the moved mark is the same object as before.
    // Around a circle, two pixels a move.
    const moved = moveMark(state, 10 * Math.sin(n / 5), 10 * Math.cos(n / 5));
    const same = { ...moved };
    const fromNothing = timed(() => benchAnswer(same));
    const fromBefore = timed(() => {
      before = benchAnswer(moved, { from: before });
    });
    if (!before.cg.ok) throw new Error(`no answer: ${before.cg.message}`);
    if (n < 0) continue;
    cold.push(fromNothing);
    warm.push(fromBefore);
  }
  const hangs = `${state.id}, ${state.pictures.length - 1} hangs`;
  return [
    { name: `${hangs}: from nothing, median`, value: quantile(cold, 0.5), unit: 'ms CPU' },
    {
      name: `${hangs}: from the one before, median`,
      value: quantile(warm, 0.5),
      unit: 'ms CPU',
      goal: GOALS.warm,
    },
    { name: `${hangs}: from the one before, p95`, value: quantile(warm, 0.95), unit: 'ms CPU' },
  ];
}

/** The state with the fourth mark of its first hang moved by some pixels. */
const moveMark = (state, dx, dy) => ({
  ...state,
  pictures: state.pictures.map((picture, i) =>
    i === 1
      ? {
          ...picture,
          marks: picture.marks.map((mark, k) =>
            k === 3 ? { ...mark, x: mark.x + dx, y: mark.y + dy } : mark,
          ),
        }
      : picture,
  ),
});

/** What the processor was worth at the time. */
function loop() {
  multiplyAdd(1e7);
  const value = timed(() => multiplyAdd(3e8));
  return { name: 'loop of 1.2e9 cycles, 400 at 3 GHz', value, unit: 'ms CPU' };
}

/** Dependent multiply-adds of four cycles each. */
function multiplyAdd(count) {
  let sum = 0;
  for (let i = 0; i < count; i++) sum = (Math.imul(sum, 31) + i) | 0;
  return sum;
}

function timed(work) {
  const start = process.cpuUsage();
  work();
  const { user, system } = process.cpuUsage(start);
  return (user + system) / 1000;
}

const quantile = (values, share) => values.toSorted((a, b) => a - b)[Math.floor(share * (values.length - 1))];
