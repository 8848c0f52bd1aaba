import { expose } from 'comlink';
import { drawAnswers } from './drawAnswers';
import type { MonteCarloWorker } from './protocol';

const worker: MonteCarloWorker = {
  run: (order, progress) => drawAnswers(order, progress, () => Promise.resolve()),
};
expose(worker);
