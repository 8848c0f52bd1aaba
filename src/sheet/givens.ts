import { FIELDS } from './fields';
import { labeled, type GivenField } from './given';
import type { BuildState, Given } from './schema';

/** A given where it stands in a state, with its field under a name that tells it from its neighbors. */
export interface PlacedGiven {
  readonly path: readonly (string | number)[];
  readonly given: Given;
  readonly field: GivenField;
}

/** What a reader calls a thing: its name, else its kind and number. */
export const called = (name: string, kind: string, index: number): string =>
  name.trim() === '' ? `${kind} ${index + 1}` : name.trim();

/** Every given of a state, in the order a reader meets them. */
export function* givensOf(state: BuildState): Generator<PlacedGiven> {
  const { dimensions } = state;
  yield { path: ['dimensions', 'wheelbase'], given: dimensions.wheelbase, field: FIELDS.wheelbase };
  yield { path: ['dimensions', 'frontTrack'], given: dimensions.frontTrack, field: FIELDS.frontTrack };
  yield { path: ['dimensions', 'rearTrack'], given: dimensions.rearTrack, field: FIELDS.rearTrack };
  yield { path: ['dimensions', 'outsideWidth'], given: dimensions.outsideWidth, field: FIELDS.outsideWidth };
  yield { path: ['dimensions', 'treadWidth'], given: dimensions.treadWidth, field: FIELDS.treadWidth };
  yield {
    path: ['dimensions', 'frontTireRadius'],
    given: dimensions.frontTireRadius,
    field: FIELDS.frontTireRadius,
  };
  yield {
    path: ['dimensions', 'rearTireRadius'],
    given: dimensions.rearTireRadius,
    field: FIELDS.rearTireRadius,
  };
  for (const name of [
    'mass',
    'unsprungFront',
    'unsprungRear',
    'lateral',
    'hubDepth',
    'scaleDistance',
    'scaleDepth',
  ] as const)
    yield { path: [name], given: state[name], field: FIELDS[name] };

  for (const [index, part] of state.parts.entries()) {
    const name = called(part.name, 'Part', index);
    const path = ['parts', index];
    yield { path: [...path, 'mass'], given: part.mass, field: labeled(FIELDS.partMass, `${name}, mass`) };
    yield {
      path: [...path, 'ahead'],
      given: part.ahead,
      field: labeled(FIELDS.partAhead, `${name}, ahead of the rear axle`),
    };
    yield {
      path: [...path, 'left'],
      given: part.left,
      field: labeled(FIELDS.partLeft, `${name}, left of center`),
    };
    yield {
      path: [...path, 'height'],
      given: part.height,
      field: labeled(FIELDS.partHeight, `${name}, above ground`),
    };
  }
  for (const [index, mark] of state.bodyMarks.entries())
    yield {
      path: ['bodyMarks', index, 'depth'],
      given: mark.depth,
      field: labeled(FIELDS.markDepth, `Mark ${mark.key}, depth`),
    };
  for (const [index, hook] of state.hooks.entries()) {
    const name = called(hook.name, 'Hook', index);
    const path = ['hooks', index];
    yield {
      path: [...path, 'ahead'],
      given: hook.ahead,
      field: labeled(FIELDS.hookAhead, `${name}, ahead of the rear axle`),
    };
    yield {
      path: [...path, 'height'],
      given: hook.height,
      field: labeled(FIELDS.hookHeight, `${name}, above ground`),
    };
    yield {
      path: [...path, 'left'],
      given: hook.left,
      field: labeled(FIELDS.hookLeft, `${name}, left of center`),
    };
  }
  for (const [index, picture] of state.pictures.entries()) {
    const name = called(picture.name, 'Picture', index);
    const path = ['pictures', index];
    yield {
      path: [...path, 'distance'],
      given: picture.distance,
      field: labeled(FIELDS.distance, `${name}, camera distance`),
    };
    yield {
      path: [...path, 'oblique'],
      given: picture.oblique,
      field: labeled(FIELDS.oblique, `${name}, view off square`),
    };
    yield { path: [...path, 'twist'], given: picture.twist, field: labeled(FIELDS.twist, `${name}, twist`) };
    yield {
      path: [...path, 'markPlusMinus'],
      given: picture.markPlusMinus,
      field: labeled(FIELDS.markPlusMinus, `${name}, marks ±`),
    };
  }
  for (const [index, reading] of state.readings.entries()) {
    const path = ['readings', index];
    if (reading.kind === 'axle scales') {
      yield { path: [...path, 'front'], given: reading.front, field: FIELDS.axleFront };
      yield { path: [...path, 'rear'], given: reading.rear, field: FIELDS.axleRear };
    } else {
      yield { path: [...path, 'frontLeft'], given: reading.frontLeft, field: FIELDS.wheelFrontLeft };
      yield { path: [...path, 'frontRight'], given: reading.frontRight, field: FIELDS.wheelFrontRight };
      yield { path: [...path, 'rearLeft'], given: reading.rearLeft, field: FIELDS.wheelRearLeft };
      yield { path: [...path, 'rearRight'], given: reading.rearRight, field: FIELDS.wheelRearRight };
    }
  }
}
