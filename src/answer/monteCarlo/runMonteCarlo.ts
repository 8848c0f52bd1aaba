import { proxy, wrap } from 'comlink';
import { refusal, type Result } from '../../physics';
import type { MonteCarloAnswer, MonteCarloOrder, MonteCarloReason, MonteCarloWorker } from './protocol';

const STOPPED = refusal('stopped' as const, 'Stopped before all draws were made.');

/**
 * Runs a Monte Carlo order in a worker of its own, which ends with it. `progress` hears the number of draws made;
 * aborting `signal` stops at once and gives reason 'stopped'. Where there are no workers it runs on the page, in portions.
 */
export async function runMonteCarlo(
  order: MonteCarloOrder,
  progress: (drawn: number) => void,
  signal: AbortSignal,
): Promise<Result<MonteCarloAnswer, MonteCarloReason>> {
  if (signal.aborted) return STOPPED;
  if (typeof Worker === 'undefined') return runHere(order, progress, signal);
  const worker = new Worker(new URL('./monteCarloWorker.ts', import.meta.url), { type: 'module' });
  try {
    const failed = new Promise<never>((_resolve, reject) => {
      worker.addEventListener('error', (event) => reject(new Error(event.message)));
    });
    const stopped = new Promise<typeof STOPPED>((resolve) => {
      signal.addEventListener('abort', () => resolve(STOPPED), { once: true });
    });
    const remote = wrap<MonteCarloWorker>(worker);
    return await Promise.race([remote.run(order, proxy(progress)), failed, stopped]);
  } catch {
    // No worker to be had (an old browser, a file opened from disk): slower on the page, but the same.
    return await runHere(order, progress, signal);
  } finally {
    worker.terminate();
  }
}

async function runHere(
  order: MonteCarloOrder,
  progress: (drawn: number) => void,
  signal: AbortSignal,
): Promise<Result<MonteCarloAnswer, MonteCarloReason>> {
  const { drawAnswers } = await import('./drawAnswers');
  const stopped = new Promise<typeof STOPPED>((resolve) => {
    signal.addEventListener('abort', () => resolve(STOPPED), { once: true });
  });
  const pause = () => new Promise<void>((resolve) => setTimeout(resolve, 0));
  return await Promise.race([drawAnswers(order, progress, pause), stopped]);
}
