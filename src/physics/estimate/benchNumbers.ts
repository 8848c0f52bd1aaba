import { kilograms, meters, radians } from '../quantities';
import type { Length, Mass } from '../quantities';
import type {
  AxleLiftReading,
  HangReading,
  HookPlace,
  Instruments,
  Measured,
  PartsListReading,
  PictureLinesReading,
  TruckBench,
  TruckDimensions,
  TruckReading,
} from './truckReadings';

/** A bench with one of its numbers, by the id it has in NumberRead, put in another value. */

const withLength = (measured: Measured<Length>, value: number): Measured<Length> => ({
  ...measured,
  value: meters(value),
});
const withMass = (measured: Measured<Mass>, value: number): Measured<Mass> => ({
  ...measured,
  value: kilograms(value),
});

/** The bench with number `id` read as `value` (SI); the bench itself where it holds no such number. */
export function withValue(bench: TruckBench, id: string, value: number): TruckBench {
  if (id === 'lateral') return { ...bench, lateral: withLength(bench.lateral, value) };
  const hooks = bench.hooks.map((hook) => hookWith(hook, id, value));
  return {
    ...bench,
    dimensions: dimensionsWith(bench.dimensions, id, value),
    instruments: instrumentsWith(bench.instruments, id, value),
    hooks,
    readings: bench.readings.map((reading) => {
      if (reading.kind === 'picture lines') return linesWith(reading, id, value);
      return id.startsWith(`${reading.id}.`)
        ? readingWith(reading, id.slice(reading.id.length + 1), value)
        : reading;
    }),
  };
}

function dimensionsWith(d: TruckDimensions, id: string, value: number): TruckDimensions {
  switch (id) {
    case 'wheelbase':
    case 'frontTrack':
    case 'rearTrack':
    case 'frontTireRadius':
    case 'rearTireRadius': {
      const now = d[id];
      return now ? { ...d, [id]: withLength(now, value) } : d;
    }
    case 'frontAxleShare':
    case 'rearAxleShare': {
      const now = d[id];
      return now ? { ...d, [id]: { ...now, value } } : d;
    }
    default:
      return d;
  }
}

function instrumentsWith(instruments: Instruments, id: string, value: number): Instruments {
  switch (id) {
    case 'scaleZero':
      return { ...instruments, scaleZero: withMass(instruments.scaleZero, value) };
    case 'rulerZero':
      return { ...instruments, rulerZero: withLength(instruments.rulerZero, value) };
    case 'levelZero':
      return { ...instruments, levelZero: { ...instruments.levelZero, value: radians(value) } };
    default:
      return instruments;
  }
}

function hookWith(hook: HookPlace, id: string, value: number): HookPlace {
  const axis = (['x', 'y', 'z'] as const).find((each) => id === `hook ${hook.id}.${each}`);
  return axis ? { ...hook, [axis]: withLength(hook[axis], value) } : hook;
}

function readingWith(reading: TruckReading, name: string, value: number): TruckReading {
  switch (reading.kind) {
    case 'total mass':
      return { ...reading, load: withMass(reading.load, value) };
    case 'axle scales':
      return name === 'front' || name === 'rear'
        ? { ...reading, [name]: withMass(reading[name], value) }
        : reading;
    case 'wheel scales':
      return name === 'frontLeft' || name === 'frontRight' || name === 'rearLeft' || name === 'rearRight'
        ? { ...reading, [name]: withMass(reading[name], value) }
        : reading;
    case 'axle lift':
      return liftWith(reading, name, value);
    case 'hang':
      return hangWith(reading, name, value);
    case 'tilt':
      return { ...reading, angle: { ...reading.angle, value: radians(value) } };
    case 'balance':
      return { ...reading, place: withLength(reading.place, value) };
    case 'parts list':
      return listWith(reading, name, value);
    case 'picture lines':
      return reading;
  }
}

function liftWith(reading: AxleLiftReading, name: string, value: number): AxleLiftReading {
  const { lift, load } = reading;
  if (name === 'load') return { ...reading, load: withMass(load, value) };
  return {
    ...reading,
    lift:
      lift.by === 'height'
        ? { by: 'height', rise: withLength(lift.rise, value) }
        : { by: 'angle', angle: { ...lift.angle, value: radians(value) } },
  };
}

function hangWith(reading: HangReading, name: string, value: number): HangReading {
  const { string, droop } = reading;
  if (string.by === 'angle' && name === 'angle')
    return {
      ...reading,
      string: { by: 'angle', angle: { ...string.angle, value: radians(value) } },
    };
  if (string.by === 'second point' && (name === 'first' || name === 'second'))
    return { ...reading, string: { ...string, [name]: withLength(string[name], value) } };
  if (droop && name === 'frontDroop')
    return { ...reading, droop: { ...droop, front: withLength(droop.front, value) } };
  if (droop && name === 'rearDroop')
    return { ...reading, droop: { ...droop, rear: withLength(droop.rear, value) } };
  return reading;
}

function listWith(reading: PartsListReading, name: string, value: number): PartsListReading {
  const [mass, x, y, z] = reading.values;
  const values: PartsListReading['values'] = [
    name === 'mass' ? kilograms(value) : mass,
    name === 'ahead' ? meters(value) : x,
    name === 'left' ? meters(value) : y,
    name === 'height' ? meters(value) : z,
  ];
  return { ...reading, values };
}

/** A line's number is how far it is moved across itself, to the left of its direction. */
function linesWith(reading: PictureLinesReading, id: string, value: number): PictureLinesReading {
  return {
    ...reading,
    lines: reading.lines.map((each) => {
      if (each.id !== id) return each;
      const { angle, through } = each.line;
      return {
        ...each,
        line: {
          angle,
          through: {
            x: meters(through.x - value * Math.sin(angle)),
            z: meters(through.z + value * Math.cos(angle)),
          },
        },
      };
    }),
  };
}
