import type { BenchAnswer } from '../../../answer/benchAnswer';
import type { Picture } from '../../../sheet/schema';

/** Pixels of a picture for a millimeter at the truck's middle; null while the pictures are not adjusted. */
export function pixelsPerMmIn({ adjusted }: BenchAnswer, { id }: Picture): number | null {
  const camera = adjusted?.cameras.get(id);
  return camera ? camera.scale / 1000 : null;
}
