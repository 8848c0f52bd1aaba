import { inventTruck } from '../../demo/world/invent';
import { centerOfGravity } from '../../demo/world/truck';
import type { Landmark, WorldHook, WorldTruck } from '../../demo/world/truck';
import { anyDistance, anyLens, anyRoll } from './laws';
import type { Camerawork } from './laws';

/** The trucks that are photographed, how they hang, and from where. */

export type TruckCase = 'near' | 'near, focal length' | 'far' | 'free' | 'rear' | 'twelve megapixels';

export interface Setup extends Camerawork {
  /** Number of the invented truck. */
  readonly truck: number;
  readonly suspension: 'locked' | 'free';
  /** Hooks of the hangs seen from the right, and of those seen from the rear. */
  readonly side: readonly string[];
  readonly rear: readonly string[];
  /** Whether the 35 mm equivalent is typed. */
  readonly focalTold?: boolean;
}

const THREE = ['hood', 'hoop', 'bed'];

const NEAR: Setup = {
  truck: 611,
  draws: 611,
  suspension: 'locked',
  side: THREE,
  rear: [],
  distance: (draw) => draw.between(1.15, 1.25),
  roll: (draw) => draw.eitherSign(7, 7),
  radial: () => -0.02,
  film: '2 megapixels',
  focal: 2600,
};

export const SETUPS: Readonly<Record<TruckCase, Setup>> = {
  near: NEAR,
  'near, focal length': { ...NEAR, draws: 617, focalTold: true },
  far: {
    ...NEAR,
    truck: 612,
    draws: 612,
    distance: (draw) => draw.between(3.8, 4.2),
    roll: anyRoll,
    radial: anyLens,
    focal: 6600,
  },
  free: {
    truck: 613,
    draws: 613,
    suspension: 'free',
    side: ['hoop', 'guard'],
    rear: [],
    distance: anyDistance(0.9, 3),
    roll: anyRoll,
    radial: anyLens,
    film: '3 megapixels',
    zoomed: { right: [0.0004, 0.0005], rear: [0.0004, 0.0005] },
  },
  rear: {
    truck: 614,
    draws: 614,
    suspension: 'locked',
    side: ['hood', 'hoop'],
    rear: ['slider', 'roof'],
    distance: anyDistance(0.9, 3),
    roll: anyRoll,
    radial: anyLens,
    film: '2 megapixels',
    zoomed: { right: [0.00042, 0.0005], rear: [0.00032, 0.0004] },
  },
  'twelve megapixels': {
    truck: 615,
    draws: 615,
    suspension: 'locked',
    side: THREE,
    rear: [],
    distance: anyDistance(1.2, 2.6),
    roll: anyRoll,
    radial: anyLens,
    film: '12 megapixels',
    focal: 6050,
  },
};

/** Two more hooks near the CG’s place ahead, and two bolts on the tail that are seen from the rear. */
const seenFromRear = (truck: WorldTruck): WorldTruck => {
  const { shape } = truck;
  const [ahead] = centerOfGravity(truck);
  const hooks: WorldHook[] = [
    {
      id: 'slider',
      name: 'left slider eye',
      carrier: 'body',
      place: [ahead + 0.006, shape.halfWidth + 0.01, shape.sill + 0.004],
    },
    {
      id: 'roof',
      name: 'roof rail eye',
      carrier: 'body',
      place: [ahead - 0.005, -0.045, shape.roof + 0.006],
    },
  ];
  const bolts: Landmark[] = [
    { key: 'E', name: 'tailgate bolt, right', place: [shape.tail, -0.064, shape.bed - 0.016] },
    { key: 'F', name: 'tailgate bolt, left', place: [shape.tail, 0.061, shape.sill + 0.012] },
  ];
  return {
    ...truck,
    hooks: [...truck.hooks, ...hooks],
    landmarks: [...truck.landmarks.filter(({ key }) => 'ABCD'.includes(key)), ...bolts],
  };
};

/** Keys of the body marks that are seen from the side and from the rear, where both are photographed. */
export const SEEN_KEYS = { right: 'ABCD', rear: 'BDEF' } as const;

export const truckOf = (name: TruckCase): WorldTruck => {
  const truck = inventTruck(SETUPS[name].truck);
  return SETUPS[name].rear.length > 0 ? seenFromRear(truck) : truck;
};
