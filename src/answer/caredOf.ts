import { cared, refusal } from '../physics';
import type { Cared, CaredQuantity, CaredRefusal, Result } from '../physics';
import type { BenchAnswer } from './benchAnswer';

/**
 * The quantity a reader cares about as an answer tells it. Without a whole answer it is still told where the readings
 * determine it; refused with the answer's own reason where nothing could be adjusted or its lines do not show where they cross.
 */
export function caredOf(
  { cg, joint, known }: Pick<BenchAnswer, 'cg' | 'joint' | 'known'>,
  quantity: CaredQuantity,
): Result<Cared, CaredRefusal | 'no answer'> {
  if (!joint || (!cg.ok && (cg.reason === 'nearly-parallel' || cg.reason === 'unsure')))
    return refusal('no answer', cg.ok ? 'No answer yet.' : cg.message);
  // While the center of gravity is open, a lateral place that is only assumed is no finding.
  if (!cg.ok && quantity === 'left' && known.left === null)
    return refusal('undetermined', 'No reading determines how far left the CG lies yet.');
  return cared(joint, quantity);
}
