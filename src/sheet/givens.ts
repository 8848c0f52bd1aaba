import { FIELDS } from './fields';
import { labeled, type GivenField } from './given';
import { numberInWords, readingTitle } from './readingTitles';
import type { BuildState, Change, Given, Reading } from './schema';

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
  for (const name of ['unsprungFront', 'unsprungRear', 'lateral', 'hubDepth', 'scaleDistance'] as const)
    yield { path: [name], given: state[name], field: FIELDS[name] };
  const isObject = state.body === 'object';
  yield {
    path: ['scaleDepth'],
    given: state.scaleDepth,
    field: isObject ? labeled(FIELDS.objectDepth, FIELDS.scaleDepth.label) : FIELDS.scaleDepth,
  };

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
  for (const [index, mark] of state.bodyMarks.entries()) {
    const path = ['bodyMarks', index];
    yield {
      path: [...path, 'depth'],
      given: mark.depth,
      field: labeled(isObject ? FIELDS.objectDepth : FIELDS.markDepth, `Mark ${mark.key}, depth`),
    };
    yield {
      path: [...path, 'ahead'],
      given: mark.ahead,
      field: labeled(FIELDS.markAhead, `Mark ${mark.key}, ahead of the rear axle`),
    };
    yield {
      path: [...path, 'height'],
      given: mark.height,
      field: labeled(FIELDS.markHeight, `Mark ${mark.key}, above ground`),
    };
  }
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
      path: [...path, 'focalLength'],
      given: picture.focalLength,
      field: labeled(FIELDS.focalLength, `${name}, focal length`),
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
  for (const [index, reading] of state.readings.entries())
    yield* givensOfReading(state, reading, ['readings', index]);
  for (const name of ['scaleZero', 'rulerZero', 'levelZero'] as const)
    yield { path: ['instruments', name], given: state.instruments[name], field: FIELDS[name] };
  for (const [index, change] of state.changes.entries())
    yield* givensOfChange(change, called(change.name, 'Change', index), ['changes', index]);
}

/** Every given of a reading, those that its present choices leave unused among them. */
function* givensOfReading(
  state: BuildState,
  reading: Reading,
  path: PlacedGiven['path'],
): Generator<PlacedGiven> {
  const title = readingTitle(state, reading);
  const named = (name: string, given: Given, field: GivenField, words: string): PlacedGiven => ({
    path: [...path, name],
    given,
    field: labeled(field, words === '' ? title : `${title}, ${words}`),
  });
  /** Fields whose own label says what they are. */
  const numbered = (name: string, given: Given, field: GivenField): PlacedGiven => ({
    path: [...path, name],
    given,
    field: labeled(field, `${field.label}${numberInWords(state, reading)}`),
  });
  switch (reading.kind) {
    case 'total mass':
      yield named('load', reading.load, FIELDS.totalMass, '');
      return;
    case 'axle scales':
      yield numbered('front', reading.front, FIELDS.axleFront);
      yield numbered('rear', reading.rear, FIELDS.axleRear);
      return;
    case 'wheel scales':
      yield numbered('frontLeft', reading.frontLeft, FIELDS.wheelFrontLeft);
      yield numbered('frontRight', reading.frontRight, FIELDS.wheelFrontRight);
      yield numbered('rearLeft', reading.rearLeft, FIELDS.wheelRearLeft);
      yield numbered('rearRight', reading.rearRight, FIELDS.wheelRearRight);
      return;
    case 'axle lift':
      yield named('rise', reading.rise, FIELDS.liftRise, 'rise');
      yield named('angle', reading.angle, FIELDS.liftAngle, 'slope');
      yield named('load', reading.load, FIELDS.liftLoad, `scale under the ${reading.scaleUnder}`);
      return;
    case 'hang line':
      yield named('ahead', reading.ahead, FIELDS.stringAhead, 'second point ahead of the rear axle');
      yield named('left', reading.left, FIELDS.stringLeft, 'second point left of center');
      yield named('height', reading.height, FIELDS.stringHeight, 'second point above ground');
      yield named('angle', reading.angle, FIELDS.hangAngle, 'slope');
      yield named('frontDroop', reading.frontDroop, FIELDS.frontDroop, 'front axle droop');
      yield named('rearDroop', reading.rearDroop, FIELDS.rearDroop, 'rear axle droop');
      return;
    case 'tilt board':
      yield named('angle', reading.angle, FIELDS.boardAngle, 'slope');
      return;
    case 'balance on an edge':
      yield reading.edge === 'across the truck'
        ? named('place', reading.place, FIELDS.balanceAhead, 'ahead of the rear axle')
        : named('place', reading.place, FIELDS.balanceLeft, 'left of center');
  }
}

function* givensOfChange(change: Change, name: string, path: PlacedGiven['path']): Generator<PlacedGiven> {
  const placed = (key: 'mass' | 'ahead' | 'left' | 'height', field: GivenField, words: string) => ({
    path: [...path, key],
    given: change[key],
    field: labeled(field, `${name}, ${words}`),
  });
  if (change.kind === 'moved') {
    yield placed('mass', FIELDS.movedMass, 'mass');
    yield placed('ahead', FIELDS.movedAhead, 'moved ahead');
    yield placed('left', FIELDS.movedLeft, 'moved left');
    yield placed('height', FIELDS.movedHeight, 'moved up');
  } else {
    yield placed('mass', FIELDS.addedMass, 'mass');
    yield placed('ahead', FIELDS.addedAhead, 'ahead of the rear axle');
    yield placed('left', FIELDS.addedLeft, 'left of center');
    yield placed('height', FIELDS.addedHeight, 'above ground');
  }
}
