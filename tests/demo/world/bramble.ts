import type { WorldCarrier, WorldPart, WorldTruck } from './truck';

/** id, name, carrier, mass in g, then ahead, left and height in mm. */
type Row = readonly [string, string, WorldCarrier, number, number, number, number];

const rows: readonly Row[] = [
  ['tire-fl', 'Front left tire, wheel and foam', 'front axle', 152, 313, 93, 57],
  ['tire-fr', 'Front right tire, wheel and foam', 'front axle', 152, 313, -93, 57],
  ['ballast-fl', 'Front left wheel ballast', 'front axle', 62, 313, 90, 57],
  ['ballast-fr', 'Front right wheel ballast', 'front axle', 62, 313, -90, 57],
  ['axle-front', 'Front axle housing and gears', 'front axle', 178, 312, -6, 58],
  ['servo', 'Steering servo on the axle', 'front axle', 61, 322, 14, 78],
  ['links-front', 'Front links, lower half', 'front axle', 38, 276, 2, 62],
  ['guard', 'Front axle guard with eye', 'front axle', 24, 366, 0, 54],
  ['tire-rl', 'Rear left tire, wheel and foam', 'rear axle', 152, 0, 93, 57],
  ['tire-rr', 'Rear right tire, wheel and foam', 'rear axle', 152, 0, -93, 57],
  ['axle-rear', 'Rear axle housing and gears', 'rear axle', 171, 1, 4, 58],
  ['links-rear', 'Rear links, lower half', 'rear axle', 40, 38, 0, 62],
  ['rails', 'Frame rails and cross members', 'body', 204, 158, 0, 98],
  ['links-upper', 'Links and shocks, upper half', 'body', 128, 161, 0, 104],
  ['transfer', 'Gearbox and skid plate', 'body', 148, 160, 3, 78],
  ['motor', 'Motor', 'body', 158, 207, 22, 101],
  ['shafts', 'Drive shafts, body half', 'body', 46, 166, 2, 80],
  ['pack', 'Battery pack', 'body', 238, 255, -6, 117],
  ['controller', 'Speed controller', 'body', 58, 190, -34, 108],
  ['receiver', 'Receiver box', 'body', 27, 112, 29, 106],
  ['shell', 'Body shell', 'body', 248, 158, 0, 153],
  ['interior', 'Cab interior and driver', 'body', 92, 152, 17, 160],
  ['hoop', 'Hoop behind the cab', 'body', 36, 82, 0, 189],
  ['bed', 'Bed floor and rails', 'body', 64, 14, 0, 121],
  ['spare', 'Spare wheel in the bed', 'body', 96, 18, 33, 142],
  ['chest', 'Tool chest in the bed', 'body', 33, 46, 34, 136],
  ['bumpers', 'Bumpers and sliders', 'body', 118, 166, 0, 93],
];

const part = ([id, name, carrier, grams, ahead, left, height]: Row): WorldPart => ({
  id,
  name,
  carrier,
  mass: grams / 1000,
  place: [ahead / 1000, left / 1000, height / 1000],
});

/** The truck that ships with the workbook, invented for it. */
export const BRAMBLE: WorldTruck = {
  name: 'Bramble',
  wheelbase: 0.313,
  frontTrack: 0.186,
  rearTrack: 0.186,
  treadWidth: 0.04,
  frontRadius: 0.057,
  rearRadius: 0.057,
  hubDepth: 0.106,
  shape: {
    sill: 0.084,
    hood: 0.15,
    roof: 0.206,
    bed: 0.147,
    nose: 0.361,
    windshield: 0.226,
    cabEnd: 0.093,
    tail: -0.062,
    halfWidth: 0.088,
  },
  parts: rows.map(part),
  landmarks: [
    { key: 'A', name: 'front fender bolt', place: [0.236, -0.0885, 0.134] },
    { key: 'B', name: 'roof corner rivet', place: [0.112, -0.0815, 0.194] },
    { key: 'C', name: 'slider bolt, front', place: [0.228, -0.0985, 0.089] },
    { key: 'D', name: 'bed corner bolt', place: [-0.046, -0.0885, 0.136] },
    { key: 'E', name: 'slider bolt, rear', place: [0.09, -0.0985, 0.089] },
  ],
  hooks: [
    { id: 'hood', name: 'hood pin', carrier: 'body', place: [0.252, 0.001, 0.161] },
    { id: 'hoop', name: 'hoop eye', carrier: 'body', place: [0.081, -0.002, 0.222] },
    { id: 'bed', name: 'bed rail eye', carrier: 'body', place: [-0.055, 0.002, 0.156] },
    { id: 'guard', name: 'axle guard eye', carrier: 'front axle', place: [0.402, 0.001, 0.055] },
  ],
  suspension: {
    front: { rate: 640, droopLimit: 0.019, bumpLimit: 0.024, lean: -0.02, arc: -0.0012 },
    rear: { rate: 560, droopLimit: 0.023, bumpLimit: 0.026, lean: 0.025, arc: 0.0011 },
  },
};
