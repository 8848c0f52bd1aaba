// The worker of adjustment.bench.mjs: draws in portions, as the page has it, and says what came out.
import { parentPort, workerData } from 'node:worker_threads';
import { pathToFileURL } from 'node:url';

const { module, generator, bench, draws } = workerData;
const { adjustTruck, distributionOf, monteCarloOfAdjustment } = await import(pathToFileURL(module).href);
const { seededUniform } = await import(pathToFileURL(generator).href);

const PORTION = 1000;

const adjusted = adjustTruck(bench);
if (!adjusted.ok) throw new Error(adjusted.message);
const { model, adjustment } = adjusted.value;
const { unknowns, observations, laws, at } = model;
const places = [at.x, at.y, at.z];
const run = monteCarloOfAdjustment({
  unknowns,
  observations,
  laws,
  solution: adjustment,
  uniform: seededUniform(1),
  results: (found) => places.map((index) => found[index]),
});
while (run.drawn() < draws) run.draw(PORTION);
const drawn = places.map((_, i) => distributionOf(run.draws(i)));
const found = {
  values: places.map((index) => adjustment.unknowns[index]),
  means: drawn.map(({ mean }) => mean),
  u: drawn.map(({ u }) => u),
  failed: run.failed(),
};
parentPort.postMessage(found, []);
