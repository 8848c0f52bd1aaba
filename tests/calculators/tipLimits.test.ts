import { expect, test } from 'vitest';
import { tipLimits } from '../../src/calculators/tip-lines/tipLimits';
import { lengthIn } from '../../src/physics';
import { benchAnswer } from '../../src/answer/benchAnswer';
import { inventTruck } from '../demo/world/invent';
import { levelTruck, squareBench } from '../answer/squareBench';
import { tolerance } from '../tolerances';

test('the tip lines stand on the wheelbase of the fit where the scale is two points and none was typed', () => {
  const truck = levelTruck(inventTruck(3));
  const { state } = squareBench({
    truck,
    suspension: 'locked',
    hooks: ['hood', 'hoop', 'bed'],
    hookSource: 'standing picture',
    twoPoints: true,
  });
  expect(state.dimensions.wheelbase.text).toBe('');
  const limits = tipLimits(state, benchAnswer(state), null);
  if (!limits.ok) throw new Error(limits.message);
  expect(Math.abs(lengthIn(limits.value.sizes.wheelbase.value, 'mm') - 1000 * truck.wheelbase)).toBeLessThan(
    tolerance('pictures: exact, level'),
  );
});
