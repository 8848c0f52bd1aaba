import { describe, expect, it } from 'vitest';
import { tolerance } from '../tolerances';
import {
  balancePlace,
  boardPresses,
  downString,
  firstWheelSlope,
  liftEnergy,
  liftTruck,
  sliderEye,
  tipSlope,
  type Lift,
} from './world/benchwork';
import { BRAMBLE } from './world/bramble';
import { strapsForgotten } from './world/demoReadings';
import { inventTruck } from './world/invent';
import { centerOfGravity, massOf, type WorldTruck } from './world/truck';
import { size, subtract } from './world/vector';

const trucks: readonly WorldTruck[] = [
  BRAMBLE,
  ...Array.from({ length: 12 }, (_, index) => inventTruck(index + 1)),
];
const GRAVITY = 9.80665;
const near = (got: number, wanted: number, name: Parameters<typeof tolerance>[0], what: string): void =>
  expect(Math.abs(got - wanted), `${what}: ${got} instead of ${wanted}`).toBeLessThan(tolerance(name));

/** Height by Penn State ME 481 Notes 07_04, p. 4 (method of ISO 10392): z = r + l (F' − F)/(W tan θ), equal tires. */
const heightFrom = (truck: WorldTruck, raised: 'front' | 'rear', load: number, rise: number): number => {
  const { wheelbase, frontRadius } = truck;
  const ahead = centerOfGravity(truck)[0];
  const level = (massOf(truck) * (raised === 'rear' ? ahead : wheelbase - ahead)) / wheelbase;
  const slope = Math.asin(rise / wheelbase);
  return frontRadius + (wheelbase * (load - level)) / (massOf(truck) * Math.tan(slope));
};

describe('a lifted truck', () => {
  it('shows its height to the formula of ISO 10392, locked, tires alike', () => {
    for (const truck of trucks.map((each) => ({ ...each, rearRadius: each.frontRadius })))
      for (const raised of ['front', 'rear'] as const)
        for (const rise of [0.06, 0.11]) {
          const lifted = liftTruck(truck, { raised, rise, suspension: 'locked' });
          const load = raised === 'rear' ? lifted.front : lifted.rear;
          near(
            heightFrom(truck, raised, load, rise),
            centerOfGravity(truck)[2],
            'benchwork: rigid statics',
            `${truck.name}, ${raised} raised`,
          );
        }
  });

  // Virtual work: lifting a little further costs the raised axle's press times the way.
  it.each(['locked', 'free'] as const)('presses on its supports as its energy asks, %s', (suspension) => {
    const step = 1e-4;
    for (const truck of trucks)
      for (const raised of ['front', 'rear'] as const) {
        const at = (rise: number): Lift => ({ raised, rise, suspension });
        const energy = (rise: number): number =>
          liftEnergy(truck, at(rise), liftTruck(truck, at(rise)).droop);
        const press = (energy(0.1 + step) - energy(0.1 - step)) / (2 * step) / GRAVITY;
        const lifted = liftTruck(truck, at(0.1));
        near(
          raised === 'front' ? lifted.front : lifted.rear,
          press,
          'benchwork: virtual work',
          `${truck.name}, ${raised} raised`,
        );
      }
  });

  it('sinks on the springs of the low axle and rises on the others, so that it seems too high', () => {
    for (const truck of trucks) {
      const { front, droop } = liftTruck(truck, { raised: 'rear', rise: 0.1, suspension: 'free' });
      expect(droop.front).toBeLessThan(0);
      expect(droop.rear).toBeGreaterThan(0);
      expect(front).toBeGreaterThan(
        liftTruck(truck, { raised: 'rear', rise: 0.1, suspension: 'locked' }).front,
      );
    }
  });

  it('seems about 7 mm too high where the straps were left off', () => {
    const lift = strapsForgotten(BRAMBLE, [], 1).find((reading) => reading.kind === 'axle lift');
    if (!lift) throw new Error('no lift');
    const seems = heightFrom(BRAMBLE, 'rear', Number(lift.load.text) / 1000, Number(lift.rise.text) / 1000);
    near(1000 * (seems - centerOfGravity(BRAMBLE)[2]), 7, 'benchwork: straps left off', 'too high by');
  });
});

describe('a truck on a board', () => {
  it('tips where its CG stands over the line of its contacts', () => {
    for (const truck of trucks) {
      const [x, y, z] = centerOfGravity(truck);
      const outward = 0.008;
      const half =
        truck.rearTrack / 2 + (((truck.frontTrack - truck.rearTrack) / 2) * x) / truck.wheelbase + outward;
      const ways = [
        ['left', half - y],
        ['right', half + y],
        ['nose up', x],
        ['nose down', truck.wheelbase - x],
      ] as const;
      for (const [way, lever] of ways)
        near(
          Math.tan(tipSlope(truck, way, outward)),
          lever / z,
          'benchwork: rigid statics',
          `${truck.name}, ${way}`,
        );
    }
  });

  it('is held by presses that balance its weight, the uphill ones gone when it tips', () => {
    for (const truck of trucks.map((each) => ({ ...each, rearTrack: each.frontTrack }))) {
      const slope = tipSlope(truck, 'left', 0.01);
      const [frontLeft, frontRight, rearLeft, rearRight] = boardPresses(truck, 'left', slope, 0.01);
      near(frontRight + rearRight, 0, 'benchwork: rigid statics', `${truck.name}, uphill`);
      near(frontLeft + rearLeft, Math.cos(slope), 'benchwork: rigid statics', `${truck.name}, downhill`);
      const [, , , level] = boardPresses(truck, 'left', 0, 0);
      const [x, y] = centerOfGravity(truck);
      // Level, equal tracks: the same lateral difference on both axles.
      const wanted = (1 - x / truck.wheelbase) / 2 - y / (2 * truck.rearTrack);
      near(level, wanted, 'benchwork: rigid statics', `${truck.name}, rear right`);
    }
  });

  it('lifts a first wheel before it tips, by up to 8°', () => {
    for (const truck of trucks)
      for (const way of ['left', 'right'] as const) {
        const before = (180 / Math.PI) * (tipSlope(truck, way, 0) - firstWheelSlope(truck, way, 0));
        expect(before).toBeGreaterThan(0);
        expect(before).toBeLessThan(8);
      }
  });
});

it('a truck hung by its slider rests with its CG under the eye', () => {
  for (const truck of trucks) {
    const eye = sliderEye(truck);
    const way = subtract(centerOfGravity(truck), eye.place);
    const down = downString(truck, eye);
    near(
      size(subtract(way, [size(way) * down[0], size(way) * down[1], size(way) * down[2]])),
      0,
      'hang: CG under the hook',
      truck.name,
    );
  }
});

it('a truck balances over its CG', () => {
  for (const truck of trucks)
    near(balancePlace(truck), centerOfGravity(truck)[0], 'benchwork: rigid statics', truck.name);
});
