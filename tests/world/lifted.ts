import { twoSupports } from './contacts';

/** What an axle lift is made of, side plane, m and kg. */
export interface LiftedTruck {
  readonly mass: number;
  readonly cg: readonly [x: number, z: number];
  readonly wheelbase: number;
  readonly frontRadius: number;
  readonly rearRadius: number;
}

/** A point of the truck after it is pitched nose up, before it is set down: horizontal and vertical, m. */
const pitched = ([x, z]: readonly [number, number], pitch: number): readonly [number, number] => [
  x * Math.cos(pitch) - z * Math.sin(pitch),
  x * Math.sin(pitch) + z * Math.cos(pitch),
];

/**
 * The pitch, nose up, at which both hubs stand at their heights with one axle raised by `rise` from where it stood:
 * found by trying, each trial corrected by how far the hubs' difference in height is off.
 */
export const pitchOfRise = (truck: LiftedTruck, raised: 'front' | 'rear', rise: number): number => {
  const front = truck.frontRadius + (raised === 'front' ? rise : 0);
  const rear = truck.rearRadius + (raised === 'rear' ? rise : 0);
  const difference = (pitch: number): number =>
    pitched([truck.wheelbase, truck.frontRadius], pitch)[1] - pitched([0, truck.rearRadius], pitch)[1];
  let pitch = 0;
  for (let trial = 0; trial < 60; trial += 1) {
    const off = front - rear - difference(pitch);
    // The rate at which the difference grows is the hubs' horizontal distance.
    const rate =
      pitched([truck.wheelbase, truck.frontRadius], pitch)[0] - pitched([0, truck.rearRadius], pitch)[0];
    const turn = off / rate;
    pitch += turn;
    if (Math.abs(turn) < 1e-15) break;
  }
  return pitch;
};

/** Loads, kg, that both axles carry straight upward through their hubs at that pitch: front, rear. */
export const liftedLoads = (truck: LiftedTruck, pitch: number): readonly [number, number] =>
  twoSupports(
    [pitched([truck.wheelbase, truck.frontRadius], pitch)[0], pitched([0, truck.rearRadius], pitch)[0]],
    truck.mass,
    pitched(truck.cg, pitch)[0],
  );
