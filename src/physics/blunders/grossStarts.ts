import type { NumberKind, NumberRead } from '../estimate/truckModel';
import { UNIT_SLIPS } from './unitSlips';

/** Numbers whose sign is a side. */
const SIDED = /\.(y|left|first|second)$/;

/**
 * Where the truth may lie if the number is wrong by far: in another unit, as long as that brings it nearer to the usual
 * size of its kind on this bench; or on the other side.
 */
export function grossStarts({ id, kind, value, u }: NumberRead, all: readonly NumberRead[]): number[] {
  const usual = usualSize(all, kind);
  const strange = (size: number) => Math.abs(Math.log(Math.abs(size) / (usual ?? 1)));
  return [
    ...UNIT_SLIPS.filter((slip) => slip.kind === kind)
      .map(({ factor }) => value * factor)
      .filter((start) => usual === null || strange(start) < strange(value)),
    ...(kind === 'angle' || SIDED.test(id) ? [-value] : []),
  ].filter((start) => Math.abs(start - value) > 3 * u);
}

/** From this part of the usual size of its kind on, or this many times it, a number may be in another unit. */
const STRANGE = 4;

/** Whether a number is so small or so large beside others of its kind, or they so few, that a unit may be wrong. */
export function isStrange({ kind, value }: NumberRead, all: readonly NumberRead[]): boolean {
  const usual = usualSize(all, kind);
  if (value === 0) return false;
  return usual === null || Math.abs(Math.log(Math.abs(value) / usual)) > Math.log(STRANGE);
}

/** Middle size of the numbers of a kind; null where they are too few to outvote a wrong one. */
function usualSize(numbers: readonly NumberRead[], kind: NumberKind): number | null {
  const sizes = numbers
    .filter((number) => number.kind === kind && number.value !== 0)
    .map(({ value }) => Math.abs(value))
    .toSorted((a, b) => a - b);
  return sizes.length < 3 ? null : (sizes[Math.floor(sizes.length / 2)] ?? null);
}
