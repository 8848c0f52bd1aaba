import { cared, overUnknowns } from '../physics';
import type { CaredQuantity, TruckAdjustment } from '../physics';

/**
 * What the smallest blunder that would show in each number (Baarda's minimal detectable one) would do to a quantity while
 * it goes unseen: its external reliability. By number id, in SI, signed for a number that reads too much; null where no
 * other number checks it. Empty where the quantity is not known.
 */
export function effectsOfUnseenBlunders(
  truck: TruckAdjustment,
  quantity: CaredQuantity,
): ReadonlyMap<string, number | null> {
  const found = cared(truck, quantity);
  if (!found.ok) return new Map();
  const gradient = overUnknowns(truck.model, found.value.gradient, truck.adjustment.unknowns.length);
  return new Map(
    truck
      .numbers()
      .map(({ id, shift, detectable }) => [
        id,
        detectable === null
          ? null
          : detectable * gradient.reduce((sum, slope, i) => sum + slope * (shift[i] ?? 0), 0),
      ]),
  );
}
