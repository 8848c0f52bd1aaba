import { random } from './random';
import type { WorldCarrier, WorldHook, WorldPart, WorldTruck } from './truck';
import { centerOfGravity, massOf } from './truck';
import type { Vector } from './vector';

/** Raised whenever the same number would give another truck. */
export const INVENTION = 1;

/**
 * An invented truck from a number: dimensions, mass, share of the front axle, sprung share, height of the CG
 * and its 2 to 6 mm off center are drawn first, then a parts list is made that has them. All within what
 * 1:10 trail trucks have: wheelbase 0.255-0.324 m, track 0.17-0.205, mass 2.1-4.1 kg, front share 50-60 %,
 * CG 75-125 mm high, 45-65 % of the mass sprung.
 */
export const inventTruck = (number: number): WorldTruck => {
  const draw = random(number, `truck ${INVENTION}`);
  const wheelbase = draw.between(0.255, 0.324);
  const frontTrack = draw.between(0.17, 0.203);
  const rearTrack = frontTrack + draw.between(-0.002, 0.002);
  const frontRadius = draw.between(0.048, 0.06);
  const rearRadius = frontRadius + draw.between(-0.0015, 0.0015);
  const treadWidth = draw.between(0.034, 0.044);
  const hubDepth = frontTrack / 2 + draw.between(0.01, 0.016);
  const half = draw.between(0.085, 0.09);
  const mass = draw.between(2.1, 4.1);
  const frontShare = draw.between(0.5, 0.6);
  const sprungShare = draw.between(0.45, 0.65);
  const offset = draw.eitherSign(0.002, 0.006);
  /** The sprung part's own CG height decides the truck's; it must stay inside the body. */
  const sprungHeight = draw.between(frontRadius + 0.052, frontRadius + 0.084);

  const lift = frontRadius - 0.057 + draw.between(-0.004, 0.008);
  const shape = {
    sill: 0.084 + lift,
    hood: 0.15 + lift + draw.between(-0.006, 0.008),
    roof: 0.206 + lift + draw.between(-0.012, 0.012),
    bed: 0.145 + lift + draw.between(-0.008, 0.006),
    nose: wheelbase + draw.between(0.04, 0.052),
    windshield: wheelbase * draw.between(0.7, 0.74),
    cabEnd: wheelbase * draw.between(0.28, 0.34),
    tail: -draw.between(0.052, 0.066),
    halfWidth: half,
  };

  // Nominal list: share of its carrier's mass, place. Then three shifts bring in what was drawn.
  const frontAxle = mass * (1 - sprungShare) * draw.between(0.52, 0.6);
  const rearAxle = mass * (1 - sprungShare) - frontAxle;
  const part = (
    id: string,
    name: string,
    carrier: WorldCarrier,
    kilograms: number,
    place: Vector,
  ): WorldPart => ({
    id,
    name,
    carrier,
    mass: kilograms,
    place,
  });
  const axleParts = (axle: 'front' | 'rear', total: number, x: number, z: number): WorldPart[] => {
    const carrier: WorldCarrier = axle === 'front' ? 'front axle' : 'rear axle';
    const track = axle === 'front' ? frontTrack : rearTrack;
    const wheel = draw.between(0.29, 0.34);
    const links = draw.between(0.05, 0.08);
    const inward = axle === 'front' ? -1 : 1;
    return [
      part(`${axle}-left`, `${axle} left wheel`, carrier, total * wheel, [x, track / 2, z]),
      part(`${axle}-right`, `${axle} right wheel`, carrier, total * wheel, [x, -track / 2, z]),
      part(`${axle}-links`, `${axle} links, lower half`, carrier, total * links, [
        x + inward * 0.036,
        0,
        z + 0.005,
      ]),
      part(`${axle}-housing`, `${axle} axle housing`, carrier, total * (1 - 2 * wheel - links), [
        x,
        draw.between(-0.006, 0.006),
        z + draw.between(0, 0.004),
      ]),
    ];
  };
  const sprung = mass * sprungShare;
  const shares = [
    ['rails', 'Frame rails', 0.16, 0.5, 0, -0.03],
    ['gearbox', 'Gearbox and skid plate', 0.13, 0.51, 0.003, -0.045],
    ['motor', 'Motor', 0.11, 0.64, draw.between(-0.02, 0.02), -0.026],
    ['pack', 'Battery pack', 0.15, 0.78, draw.between(-0.018, 0.018), -0.012],
    ['controller', 'Speed controller', 0.05, 0.6, draw.between(-0.03, 0.03), -0.016],
    ['shell', 'Body shell', 0.19, 0.5, 0, 0.028],
    ['interior', 'Cab interior', 0.07, 0.48, draw.between(-0.015, 0.015), 0.03],
    ['bed', 'Bed and load', 0.08, 0.08, draw.between(-0.03, 0.03), 0.012],
    ['bumpers', 'Bumpers and sliders', 0.06, 0.53, 0, -0.03],
  ] as const;
  const weights = shares.map(([, , share]) => share * draw.between(0.75, 1.25));
  const together = weights.reduce((sum, weight) => sum + weight, 0);
  const bodyParts = shares.map(([id, name, , along, left, above], index) =>
    part(id, name, 'body', (sprung * (weights[index] ?? 0)) / together, [
      along * wheelbase + draw.between(-0.006, 0.006),
      left,
      sprungHeight + above + draw.between(-0.006, 0.006),
    ]),
  );
  const axles = [
    ...axleParts('front', frontAxle, wheelbase, frontRadius),
    ...axleParts('rear', rearAxle, 0, rearRadius),
  ];

  const mean = (parts: readonly WorldPart[], at: 0 | 1 | 2): number =>
    parts.reduce((sum, each) => sum + each.mass * each.place[at], 0);
  const ahead = (mass * frontShare * wheelbase - mean(axles, 0) - mean(bodyParts, 0)) / sprung;
  const left = (mass * offset - mean(axles, 1) - mean(bodyParts, 1)) / sprung;
  const up = sprungHeight - mean(bodyParts, 2) / sprung;
  const parts = [
    ...axles,
    ...bodyParts.map((each) => ({
      ...each,
      place: [each.place[0] + ahead, each.place[1] + left, each.place[2] + up] as const,
    })),
  ];

  const side = -half - 0.0005;
  const slider = -half - draw.between(0.006, 0.01);
  const landmarks = [
    ['A', 'front fender bolt', shape.windshield + 0.012, side, shape.hood - 0.016],
    ['B', 'roof corner rivet', shape.cabEnd + 0.018, -half + draw.between(0.002, 0.005), shape.roof - 0.012],
    ['C', 'slider bolt, front', wheelbase - frontRadius - 0.026, slider, shape.sill + 0.005],
    ['D', 'bed corner bolt', shape.tail + 0.014, side, shape.bed - 0.011],
    ['E', 'slider bolt, rear', rearRadius + 0.032, slider, shape.sill + 0.005],
    ['F', 'door sticker', wheelbase * 0.53, side, shape.hood - 0.014],
  ] as const;
  const count = 4 + Math.floor(draw.unit() * 3);

  const frontHook = draw.unit() < 0.6;
  const hooks: WorldHook[] = [
    {
      id: 'hood',
      name: 'hood pin',
      carrier: 'body',
      place: [shape.windshield + draw.between(0.02, 0.05), draw.eitherSign(0, 0.003), shape.hood + 0.011],
    },
    {
      id: 'hoop',
      name: 'hoop eye',
      carrier: 'body',
      place: [shape.cabEnd - 0.012, draw.eitherSign(0, 0.003), shape.roof + 0.016],
    },
    {
      id: 'bed',
      name: 'bed rail eye',
      carrier: 'body',
      place: [shape.tail + 0.007, draw.eitherSign(0, 0.003), shape.bed + 0.009],
    },
    {
      id: 'guard',
      name: 'axle guard eye',
      carrier: frontHook ? 'front axle' : 'rear axle',
      place: frontHook
        ? [
            wheelbase + frontRadius + draw.between(0.03, 0.036),
            draw.eitherSign(0, 0.003),
            frontRadius - 0.002,
          ]
        : [-rearRadius - draw.between(0.03, 0.036), draw.eitherSign(0, 0.003), rearRadius - 0.002],
    },
  ];

  const truck: WorldTruck = {
    name: `Truck ${number}`,
    wheelbase,
    frontTrack,
    rearTrack,
    treadWidth,
    frontRadius,
    rearRadius,
    hubDepth,
    shape,
    parts,
    landmarks: landmarks
      .slice(0, count)
      .map(([key, name, x, y, z]) => ({ key, name, place: [x, y, z] as const })),
    hooks,
    suspension: {
      front: springs(draw.between(0.009, 0.018), sprung / 2),
      rear: springs(draw.between(0.009, 0.018), sprung / 2),
    },
  };
  return truck;

  /** Springs that sag by `sag` m under `carried` kg, and links that let the axle droop up to 25 mm. */
  function springs(sag: number, carried: number): WorldTruck['suspension']['front'] {
    return {
      rate: (carried * 9.80665) / sag,
      droopLimit: draw.between(0.01, 0.025),
      bumpLimit: draw.between(0.015, 0.028),
      lean: draw.between(-0.03, 0.03),
      arc: draw.eitherSign(0.001, 0.002),
    };
  }
};

/** What a believable truck must have; what is out of range is said, an empty list is good. */
export const unbelievable = (truck: WorldTruck): string[] => {
  const cg = centerOfGravity(truck);
  const mass = massOf(truck);
  const ranges: [string, number, number, number][] = [
    ['mass', mass, 2, 4.2],
    ['wheelbase', truck.wheelbase, 0.242, 0.324],
    ['front track', truck.frontTrack, 0.168, 0.207],
    ['rear track', truck.rearTrack, 0.168, 0.207],
    ['outside width', truck.frontTrack + truck.treadWidth, 0.2, 0.25],
    ['tire diameter', 2 * truck.frontRadius, 0.094, 0.121],
    ['front share', cg[0] / truck.wheelbase, 0.5, 0.62],
    ['height', cg[2], 0.065, 0.14],
    ['offset', Math.abs(cg[1]), 0.002, 0.006],
    ['sprung share', massOf(truck, 'body') / mass, 0.45, 0.65],
    ['tip angle, deg', (Math.atan(truck.frontTrack / 2 / cg[2]) * 180) / Math.PI, 35, 55],
    ...truck.landmarks.map((mark): [string, number, number, number] => [
      mark.name,
      -mark.place[1],
      0.08,
      0.1,
    ]),
  ];
  return ranges
    .filter(([, value, low, high]) => !(value >= low - 1e-9 && value <= high + 1e-9))
    .map(([name, value, low, high]) => `${name} ${value.toFixed(4)} outside ${low}-${high}`);
};
