import {
  emptyAxleLift,
  emptyAxleScales,
  emptyHangLine,
  emptyHook,
  emptySheet,
  emptyState,
  emptyTiltBoard,
  emptyTotalMass,
} from '../../../src/sheet/empty';
import type { BenchSheet, BuildState, Given, Hook, Reading } from '../../../src/sheet/schema';

/** A given as typed: "22 deg", "1551 g". */
export function typed<Unit extends string>(text: string, unit: Unit) {
  return { text, unit, plusMinus: '', kind: 'expanded' as const } satisfies Given;
}

/** A state with every size measured, so that a reading waits for nothing but itself. */
export const stateWith = (...readings: Reading[]): BuildState => ({
  ...emptyState(),
  dimensions: {
    wheelbase: typed('313', 'mm'),
    frontTrack: typed('186', 'mm'),
    rearTrack: typed('186', 'mm'),
    outsideWidth: typed('231', 'mm'),
    treadWidth: typed('45', 'mm'),
    frontTireRadius: typed('55', 'mm'),
    rearTireRadius: typed('55', 'mm'),
  },
  readings,
});

export function sheetWith(state: BuildState): BenchSheet {
  return { ...emptySheet(), states: [state], openState: state.id };
}

export const axles = (front: string, rear: string): Reading => ({
  ...emptyAxleScales(),
  id: 'axles',
  front: typed(front, 'g'),
  rear: typed(rear, 'g'),
});

/** Nose up by 22°, the rear scale at 1726 g. */
export const lift = (more: Partial<ReturnType<typeof emptyAxleLift>> = {}): Reading => ({
  ...emptyAxleLift(),
  id: 'lift',
  by: 'angle',
  angle: typed('22', 'deg'),
  load: typed('1726', 'g'),
  ...more,
});

export const board = (more: Partial<ReturnType<typeof emptyTiltBoard>> = {}): Reading => ({
  ...emptyTiltBoard(),
  id: 'board',
  angle: typed('44.0', 'deg'),
  ...more,
});

export const mass = (text: string): Reading => ({
  ...emptyTotalMass(),
  id: 'mass',
  load: typed(text, 'g'),
});

export const hook = (more: Partial<Hook> = {}): Hook => ({
  ...emptyHook(),
  id: 'hood',
  name: 'hood pin',
  ahead: typed('251', 'mm'),
  height: typed('161.5', 'mm'),
  ...more,
});

export const hang = (more: Partial<ReturnType<typeof emptyHangLine>> = {}): Reading => ({
  ...emptyHangLine(),
  id: 'hang',
  hook: 'hood',
  ahead: typed('140', 'mm'),
  height: typed('60', 'mm'),
  ...more,
});
