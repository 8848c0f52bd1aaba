import { expect, it } from 'vitest';
import { benchAnswer } from '../../src/answer/benchAnswer';
import { emptyHangLine } from '../../src/sheet/empty';
import type { BuildState, Given, Reading } from '../../src/sheet/schema';
import { NOTHING, simulateBench } from '../demo/world/bench';
import { inventTruck } from '../demo/world/invent';
import { centerOfGravity } from '../demo/world/truck';
import { valueOf } from '../physics/given';
import { tolerance } from '../tolerances';

/** A hook far less sure than everything else, in a picture and in a hang line read without one. */
const HOOK_PLUS_MINUS = 5;
const truck = inventTruck(4);
const [x, , z] = centerOfGravity(truck);
const place = (id: string) => truck.hooks.find((hook) => hook.id === id)?.place ?? [NaN, NaN, NaN];

const withPlusMinus = <G extends Given>(given: G, plusMinus: number): G => ({
  ...given,
  plusMinus: String(plusMinus),
});

/** Hung before the camera by hood and bed; no mark shows a hook, so that the ruler alone tells where along the string it is. */
function pictured(readings: readonly Reading[]): BuildState {
  const { state } = simulateBench({
    truck,
    pictureSeed: 4,
    suspension: 'locked',
    hooks: ['hood', 'bed'],
    hookSource: 'ruler',
    markSigma: 0.3,
    redraw: NOTHING,
  });
  return {
    ...state,
    hooks: state.hooks.map((hook) =>
      hook.id === 'hood'
        ? {
            ...hook,
            ahead: withPlusMinus(hook.ahead, HOOK_PLUS_MINUS),
            height: withPlusMinus(hook.height, HOOK_PLUS_MINUS),
          }
        : hook,
    ),
    pictures: state.pictures.map((picture) => ({
      ...picture,
      marks: picture.marks.filter(({ role }) => !role.startsWith('hook ')),
    })),
    readings: [...state.readings, ...readings],
  };
}

/** The same hang with a level on the truck, square to a tenth of a degree. */
function hangLine(hook: string, counted = true): Reading {
  const [ahead, , height] = place(hook);
  const noseBelowLevel = Math.atan2(x - ahead, height - z);
  const empty = emptyHangLine();
  return {
    ...empty,
    id: `line-${hook}`,
    hook,
    by: 'angle',
    angle: { ...empty.angle, text: ((noseBelowLevel * 180) / Math.PI).toFixed(3), plusMinus: '0.1' },
    counted,
  };
}

/** Standard uncertainty of the CG across the line from `hook`, mm. */
function across(state: BuildState, hook: string): number {
  const { joint } = benchAnswer(state);
  const covariance = joint?.stanceCovariance ?? [];
  const at = (i: number, j: number) => covariance[i]?.[j] ?? NaN;
  const [ahead, , height] = place(hook);
  const arm = Math.hypot(x - ahead, z - height);
  const [nx, nz] = [-(z - height) / arm, (x - ahead) / arm];
  return 1000 * Math.sqrt(nx * nx * at(0, 0) + 2 * nx * nz * at(0, 2) + nz * nz * at(2, 2));
}

it('counts the ruler’s reading of a hook once, however often the truck hangs by it', () => {
  const alone = across(pictured([]), 'hood');
  const both = across(pictured([hangLine('hood')]), 'hood');
  // Nothing but the hook's place, by ruler and by where the string shows, tells where across itself the line runs.
  expect(both / alone).toBeGreaterThan(1 - tolerance('hook in both: not averaged'));
  expect(both).toBeLessThanOrEqual(alone);
});

it('shares the hooks of hang lines that count, and no others', () => {
  const sharedBy = (readings: readonly Reading[]) => {
    const pictures = benchAnswer(pictured(readings)).bench.readings.find(
      ({ kind }) => kind === 'picture lines',
    );
    return pictures?.kind === 'picture lines'
      ? pictures.shared.flatMap((each) => (each.quantity === 'hook' ? [`${each.hook} ${each.axis}`] : []))
      : null;
  };
  expect(sharedBy([hangLine('hood', false)])).toEqual([]);
  expect(sharedBy([hangLine('hood')])?.toSorted()).toEqual(['hood x', 'hood y', 'hood z']);
});

it('tells the same place with and without what the hang line repeats', () => {
  const [alone, both] = [pictured([]), pictured([hangLine('hood')])].map((state) =>
    valueOf(benchAnswer(state).cg),
  );
  for (const axis of ['ahead', 'height'] as const)
    expect(
      Math.abs((both?.[axis].value ?? NaN) - (alone?.[axis].value ?? NaN)) / (alone?.[axis].u ?? NaN),
    ).toBeLessThan(tolerance('hook in both: same place'));
});
