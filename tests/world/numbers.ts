import { type Angle, type Length, type Mass, kilograms, meters, radians } from '../../src/physics';
import type { Measured, TruckBench, TruckReading } from '../../src/physics';

/** What a number of a bench is. */
export type NumberSort = 'length' | 'mass' | 'angle' | 'share';

/** One number read, by its id: "lift-1.load", "frontTrack", "hook roof.x". */
export interface BenchNumber {
  readonly id: string;
  /** Id of the reading it belongs to; null for sizes, hooks, instruments and the lateral place. */
  readonly reading: string | null;
  readonly sort: NumberSort;
  readonly value: number;
  readonly u: number;
  readonly law?: 'rectangular';
}

type Change = (number: BenchNumber) => number;

/** The bench with every number put through `change`: the one walk over all that a bench holds. */
const changed = (bench: TruckBench, change: Change): TruckBench => {
  const pick = (id: string, reading: string | null, sort: NumberSort, { value, u, law }: Measured): number =>
    change({ id, reading, sort, value, u, ...(law && { law }) });
  const length = (id: string, m: Measured<Length>, reading: string | null = null): Measured<Length> => ({
    ...m,
    value: meters(pick(id, reading, 'length', m)),
  });
  const mass = (id: string, m: Measured<Mass>, reading: string | null = null): Measured<Mass> => ({
    ...m,
    value: kilograms(pick(id, reading, 'mass', m)),
  });
  const angle = (id: string, m: Measured<Angle>, reading: string | null = null): Measured<Angle> => ({
    ...m,
    value: radians(pick(id, reading, 'angle', m)),
  });
  const share = (id: string, m: Measured): Measured => ({ ...m, value: pick(id, null, 'share', m) });

  const { dimensions: d, instruments, hooks } = bench;
  return {
    dimensions: {
      ...d,
      ...(d.wheelbase && { wheelbase: length('wheelbase', d.wheelbase) }),
      ...(d.frontTrack && { frontTrack: length('frontTrack', d.frontTrack) }),
      ...(d.rearTrack && { rearTrack: length('rearTrack', d.rearTrack) }),
      ...(d.frontTireRadius && { frontTireRadius: length('frontTireRadius', d.frontTireRadius) }),
      ...(d.rearTireRadius && { rearTireRadius: length('rearTireRadius', d.rearTireRadius) }),
      ...(d.frontAxleShare && { frontAxleShare: share('frontAxleShare', d.frontAxleShare) }),
      ...(d.rearAxleShare && { rearAxleShare: share('rearAxleShare', d.rearAxleShare) }),
    },
    lateral: length('lateral', bench.lateral),
    instruments: {
      scaleZero: mass('scaleZero', instruments.scaleZero),
      rulerZero: length('rulerZero', instruments.rulerZero),
      levelZero: angle('levelZero', instruments.levelZero),
    },
    hooks: hooks.map((hook) => ({
      ...hook,
      x: length(`hook ${hook.id}.x`, hook.x),
      y: length(`hook ${hook.id}.y`, hook.y),
      z: length(`hook ${hook.id}.z`, hook.z),
    })),
    readings: bench.readings.map((reading): TruckReading => {
      const { id } = reading;
      switch (reading.kind) {
        case 'total mass':
          return { ...reading, load: mass(`${id}.load`, reading.load, id) };
        case 'axle scales':
          return {
            ...reading,
            front: mass(`${id}.front`, reading.front, id),
            rear: mass(`${id}.rear`, reading.rear, id),
          };
        case 'wheel scales':
          return {
            ...reading,
            frontLeft: mass(`${id}.frontLeft`, reading.frontLeft, id),
            frontRight: mass(`${id}.frontRight`, reading.frontRight, id),
            rearLeft: mass(`${id}.rearLeft`, reading.rearLeft, id),
            rearRight: mass(`${id}.rearRight`, reading.rearRight, id),
          };
        case 'axle lift': {
          const { lift } = reading;
          return {
            ...reading,
            lift:
              lift.by === 'height'
                ? { by: 'height', rise: length(`${id}.rise`, lift.rise, id) }
                : { by: 'angle', angle: angle(`${id}.angle`, lift.angle, id) },
            load: mass(`${id}.load`, reading.load, id),
          };
        }
        case 'hang': {
          const { string, droop } = reading;
          return {
            ...reading,
            string:
              string.by === 'angle'
                ? { by: 'angle', angle: angle(`${id}.angle`, string.angle, id) }
                : {
                    by: 'second point',
                    first: length(`${id}.first`, string.first, id),
                    second: length(`${id}.second`, string.second, id),
                  },
            ...(droop && {
              droop: {
                front: length(`${id}.frontDroop`, droop.front, id),
                rear: length(`${id}.rearDroop`, droop.rear, id),
              },
            }),
          };
        }
        case 'tilt':
          return { ...reading, angle: angle(`${id}.angle`, reading.angle, id) };
        case 'balance':
          return { ...reading, place: length(`${id}.place`, reading.place, id) };
        case 'parts list': {
          const u = (i: number): number => Math.sqrt(reading.covariance[i]?.[i] ?? NaN);
          const [m, x, y, z] = reading.values;
          return {
            ...reading,
            values: [
              mass(`${id}.mass`, { value: m, u: u(0) }, id).value,
              length(`${id}.ahead`, { value: x, u: u(1) }, id).value,
              length(`${id}.left`, { value: y, u: u(2) }, id).value,
              length(`${id}.height`, { value: z, u: u(3) }, id).value,
            ],
          };
        }
        case 'picture lines':
          return {
            ...reading,
            lines: reading.lines.map(({ id: line, view, line: { angle: direction, through } }, k) => {
              const u = Math.sqrt(reading.covariance[2 * k + 1]?.[2 * k + 1] ?? NaN);
              // A line's number is how far it is moved across itself, to the left of its direction.
              const across = pick(line, line, 'length', { value: 0, u });
              return {
                id: line,
                view,
                line: {
                  angle: direction,
                  through: {
                    x: meters(through.x - across * Math.sin(direction)),
                    z: meters(through.z + across * Math.cos(direction)),
                  },
                },
              };
            }),
          };
      }
    }),
  };
};

/** Every number of a bench that could be read wrong. The tread's width is none: it only bounds the tip line. */
export const numbersOf = (bench: TruckBench): BenchNumber[] => {
  const numbers: BenchNumber[] = [];
  changed(bench, (number) => {
    numbers.push(number);
    return number.value;
  });
  return numbers;
};

/** The bench with one number read differently. */
export const withNumber = (bench: TruckBench, id: string, value: number): TruckBench =>
  changed(bench, (number) => (number.id === id ? value : number.value));
