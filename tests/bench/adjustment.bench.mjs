import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { Worker } from 'node:worker_threads';

const DRAWS = 100_000;
/** 60 µs a draw: six seconds are as long as a reader waits for a bar to fill. */
const GOALS = { draws: 6 };
/** Adjustments before timing starts, for the engine to compile; and adjustments timed. */
const RUNS = { before: 60, timed: 300 };
/** How far two sets of draws of one law may be apart: four standard errors of each, of a mean and of a spread. */
const AGREE = { mean: 8 / Math.sqrt(DRAWS), spread: 8 / Math.sqrt(2 * DRAWS) };

/**
 * One adjustment of a bench of 15 readings (26 unknowns, 41 numbers read), and its Monte Carlo in a worker thread: every
 * draw new readings and a new solution. Beside it the same draws in numpy, which must find the same truck with the same
 * uncertainty. Processor time, since other programs share the machine.
 */
export default async function adjustment({ root }) {
  const folder = await bundled(root);
  const module = join(folder, 'index.mjs');
  const path = join(root, 'tests/bench/fifteenReadings.json');
  const bench = JSON.parse(readFileSync(path, 'utf8'));
  const { adjustTruck } = await import(pathToFileURL(module).href);

  const times = [];
  for (let n = -RUNS.before; n < RUNS.timed; n++) {
    const began = process.cpuUsage();
    adjustTruck(bench);
    if (n >= 0) times.push(1000 * secondsSince(began));
  }
  const began = process.cpuUsage();
  const ours = await inWorker({ module, generator: join(folder, 'seededUniform.mjs'), bench, draws: DRAWS });
  const seconds = secondsSince(began);
  const rows = [
    {
      name: `${bench.readings.length} readings: one adjustment, median`,
      value: median(times),
      unit: 'ms CPU',
    },
    {
      name: `their Monte Carlo in a worker, ${DRAWS} draws`,
      value: seconds,
      unit: 's CPU',
      goal: GOALS.draws,
    },
    { name: 'draws without a solution', value: ours.failed, unit: '' },
  ];
  const theirs = inNumpy(root, path);
  if (!theirs) return [...rows, { name: 'the same draws in numpy', value: null, unit: 'not present' }];
  agree(ours, theirs);
  return [...rows, { name: `the same draws in numpy ${theirs.numpy}`, value: theirs.seconds, unit: 's CPU' }];
}

/** src/physics and the seeded source of src/answer, one module each. */
async function bundled(root) {
  const { build } = await import('vite');
  const outDir = join(root, '.cache/benchAdjustment');
  await build({
    configFile: false,
    root,
    logLevel: 'warn',
    ssr: { noExternal: true },
    build: {
      ssr: true,
      outDir,
      emptyOutDir: true,
      target: 'node20',
      rollupOptions: {
        input: [join(root, 'src/physics/index.ts'), join(root, 'src/answer/seededUniform.ts')],
        output: { entryFileNames: '[name].mjs' },
      },
    },
  });
  return outDir;
}

function inWorker(workerData) {
  return new Promise((resolve, reject) => {
    const worker = new Worker(new URL('./adjustmentDraws.mjs', import.meta.url), { workerData });
    worker.once('message', resolve);
    worker.once('error', reject);
  });
}

/** What adjustmentDraws.py says; null where there is no Python with numpy. */
function inNumpy(root, bench) {
  const env = { ...process.env, OPENBLAS_NUM_THREADS: '1', OMP_NUM_THREADS: '1' };
  const python = (args) => spawnSync('python3', args, { env, encoding: 'utf8' });
  if (python(['-c', 'import numpy']).status !== 0) return null;
  const { status, stdout, stderr } = python([
    join(root, 'tests/bench/adjustmentDraws.py'),
    bench,
    String(DRAWS),
    '1',
  ]);
  if (status !== 0) throw new Error(`adjustmentDraws.py: ${stderr}`);
  return JSON.parse(stdout);
}

/** Throws where the two disagree by more than their draws scatter. */
function agree(ours, theirs) {
  theirs.u.forEach((u, i) => {
    const place = Math.abs(ours.values[i] - theirs.values[i]) / u;
    const mean = Math.abs(ours.means[i] - theirs.means[i]) / u;
    const spread = Math.abs(ours.u[i] / u - 1);
    if (!(place < 1e-3 && mean < AGREE.mean && spread < AGREE.spread))
      throw new Error(
        `result ${i + 1}: numpy differs by ${place} u, its mean by ${mean} u, its spread by ${spread}`,
      );
  });
}

function secondsSince(began) {
  const { user, system } = process.cpuUsage(began);
  return (user + system) / 1e6;
}

const median = (values) => values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)];
