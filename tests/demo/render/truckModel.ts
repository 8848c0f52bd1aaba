import type { BufferGeometry, Material } from 'three';
import { CatmullRomCurve3, ExtrudeGeometry, Group, Mesh, Path, Shape, TubeGeometry, Vector3 } from 'three';
import type { Photograph } from '../world/photograph';
import { inWorld } from '../world/photograph';
import type { Random } from '../world/random';
import { random } from '../world/random';
import type { WorldTruck } from '../world/truck';
import { carrierShift } from '../world/truck';
import type { Vector } from '../world/vector';
import { add, scale } from '../world/vector';
import { alloy, black, blots, lacquer, painted, plain, steel } from './materials';
import { ball, bar, block, ring, solid, tube } from './solids';
import { wheel } from './wheel';

interface Livery {
  readonly paint: string;
  readonly second: string;
  readonly accent: string;
  readonly cage: string;
}
const LIVERIES: readonly Livery[] = [
  { paint: '#7a2142', second: '#e9dcc0', accent: '#d8952b', cage: '#20242a' },
  { paint: '#1f6b72', second: '#efe6cf', accent: '#d5542c', cage: '#2b2b2b' },
  { paint: '#c98a1e', second: '#2b2d31', accent: '#4a8fd0', cage: '#1d1d1d' },
  { paint: '#4d6b3a', second: '#d9d2b4', accent: '#c9432f', cage: '#343434' },
  { paint: '#b23a27', second: '#e8e3da', accent: '#37a0a5', cage: '#24282c' },
  { paint: '#33517f', second: '#e6dcc4', accent: '#e0a62f', cage: '#202225' },
];

/** The truck of a photograph, posed in the world, its axles drooped as they are there. */
export const truckModel = (truck: WorldTruck, photograph: Photograph): Group => {
  const draw = random(truck.name.length * 7919 + Math.round(truck.wheelbase * 1e6), 'look');
  const livery =
    truck.name === 'Bramble' ? LIVERIES[0] : LIVERIES[1 + Math.floor(draw.unit() * (LIVERIES.length - 1))];
  if (!livery) throw new Error('No livery.');
  const group = new Group();
  group.add(
    ...bodyParts(truck, livery, draw),
    ...underside(truck, photograph, livery),
    ...axle(truck, photograph, 'front', livery, draw),
    ...axle(truck, photograph, 'rear', livery, draw),
    ...hooks(truck, photograph),
  );
  const [a, b, c] = photograph.rotation;
  const [x, y, z] = inWorld(photograph, [0, 0, 0]);
  group.matrixAutoUpdate = false;
  group.matrix.set(...a, x, ...b, y, ...c, z, 0, 0, 0, 1);
  return group;
};

type Outline = readonly (readonly [number, number])[];

/** A side outline (x, z) made solid between y = -half and y = half, edges rounded by `round`. */
const slab = (
  outline: Shape,
  half: number,
  round: number,
  materials: Material | Material[],
): Mesh<BufferGeometry> => {
  const geometry = new ExtrudeGeometry(outline, {
    depth: 2 * (half - round),
    bevelEnabled: round > 0,
    bevelSize: round,
    bevelThickness: round,
    bevelOffset: -round,
    bevelSegments: 3,
    curveSegments: 32,
  });
  geometry.rotateX(Math.PI / 2);
  geometry.translate(0, half - round, 0);
  const mesh = new Mesh<BufferGeometry>(geometry, materials);
  mesh.castShadow = true;
  mesh.receiveShadow = true;
  return mesh;
};

const polygon = (points: Outline): Shape => {
  const shape = new Shape();
  points.forEach(([x, z], index) => (index === 0 ? shape.moveTo(x, z) : shape.lineTo(x, z)));
  shape.closePath();
  return shape;
};

const bodyParts = (truck: WorldTruck, livery: Livery, draw: Random): Group['children'] => {
  const { shape, wheelbase } = truck;
  // A little inside the landmarks, so that bolt heads stand out.
  const half = shape.halfWidth - 0.0012;
  const pieces: Group['children'] = [];
  const paint = lacquer(livery.paint);
  const second = lacquer(livery.second);
  const plastic = black();
  const glass = plain('#161d22', 0.3);
  const cage = plain(livery.cage, 0.4, 0.35);
  const arch = (axle: 'front' | 'rear') => {
    const radius = (axle === 'front' ? truck.frontRadius : truck.rearRadius) + 0.0125;
    return { x: axle === 'front' ? wheelbase : 0, z: radius - 0.0065, radius };
  };
  const [frontArch, rearArch] = [arch('front'), arch('rear')];
  const chord = (circle: typeof frontArch, z: number): number =>
    Math.sqrt(Math.max(0, circle.radius ** 2 - (z - circle.z) ** 2));
  const rise = (circle: typeof frontArch, x: number): number =>
    circle.z + Math.sqrt(Math.max(0, circle.radius ** 2 - (x - circle.x) ** 2));

  // Lower body: fenders over the arches, doors between, hood sloping to the nose, bed behind.
  const lower = new Shape();
  const noseLow = rise(frontArch, shape.nose);
  const tailLow = rise(rearArch, shape.tail);
  const angleAt = (circle: typeof frontArch, x: number, z: number): number =>
    Math.atan2(z - circle.z, x - circle.x);
  lower.moveTo(shape.tail, shape.bed);
  lower.lineTo(shape.tail, tailLow);
  lower.absarc(
    rearArch.x,
    rearArch.z,
    rearArch.radius,
    angleAt(rearArch, shape.tail, tailLow),
    angleAt(rearArch, rearArch.x + chord(rearArch, shape.sill), shape.sill),
    true,
  );
  lower.lineTo(frontArch.x - chord(frontArch, shape.sill), shape.sill);
  lower.absarc(
    frontArch.x,
    frontArch.z,
    frontArch.radius,
    angleAt(frontArch, frontArch.x - chord(frontArch, shape.sill), shape.sill),
    angleAt(frontArch, shape.nose, noseLow),
    true,
  );
  lower.lineTo(shape.nose, shape.hood - 0.013);
  lower.quadraticCurveTo(shape.nose - 0.002, shape.hood - 0.006, shape.nose - 0.012, shape.hood - 0.005);
  lower.lineTo(shape.windshield, shape.hood);
  lower.lineTo(shape.cabEnd - 0.004, shape.hood);
  lower.lineTo(shape.cabEnd - 0.006, shape.bed);
  lower.closePath();
  const side = sideTexture(truck, livery, draw);
  const sidePaint = lacquer('#ffffff');
  sidePaint.map = side;
  pieces.push(slab(lower, half, 0.003, [sidePaint, paint]));

  // Cab: leans in so that the roof corner rivet lies on its side.
  const corner = truck.landmarks.find(({ key }) => key === 'B');
  const cornerHeight = corner ? corner.place[2] - shape.hood : 1;
  const leanIn = corner ? (1 + (corner.place[1] + 0.0018) / half) / cornerHeight : 0;
  const tumble = (mesh: Mesh<BufferGeometry>): Mesh<BufferGeometry> => {
    const position = mesh.geometry.getAttribute('position');
    for (let index = 0; index < position.count; index += 1)
      position.setY(
        index,
        position.getY(index) * (1 - leanIn * Math.max(0, position.getZ(index) - shape.hood)),
      );
    mesh.geometry.computeVertexNormals();
    return mesh;
  };
  const roofFront = shape.windshield - 0.036;
  const roofRear = shape.cabEnd + 0.004;
  const low = shape.hood - 0.004;
  const cab = polygon([
    [shape.cabEnd, low],
    [roofRear, shape.roof],
    [roofFront, shape.roof],
    [shape.windshield, low],
  ]);
  pieces.push(tumble(slab(cab, half, 0.0035, [second, second])));
  const [sillLine, header] = [shape.hood + 0.006, shape.roof - 0.019];
  const along = (z: number): number =>
    shape.windshield + ((roofFront - shape.windshield) * (z - low)) / (shape.roof - low);
  const pillar = shape.cabEnd + 0.46 * (shape.windshield - shape.cabEnd);
  const windows: Outline[] = [
    [
      [shape.cabEnd + 0.012, sillLine],
      [shape.cabEnd + 0.014, header],
      [pillar - 0.004, header],
      [pillar - 0.004, sillLine],
    ],
    [
      [pillar + 0.004, sillLine],
      [pillar + 0.004, header],
      [along(header) - 0.009, header],
      [along(sillLine) - 0.01, sillLine],
    ],
  ];
  for (const window of windows) pieces.push(tumble(slab(polygon(window), half + 0.0006, 0, glass)));
  const screen = polygon([
    [along(low + 0.008) + 0.0008, low + 0.008],
    [along(shape.roof - 0.007) + 0.0008, shape.roof - 0.007],
    [along(shape.roof - 0.007) - 0.004, shape.roof - 0.007],
    [along(low + 0.008) - 0.004, low + 0.008],
  ]);
  pieces.push(tumble(slab(screen, half - 0.008, 0, glass)));
  // Roof rack rails and light bar.
  const rackWidth = half * (1 - leanIn * (shape.roof - shape.hood)) - 0.012;
  for (const y of [-rackWidth, rackWidth]) {
    const [from, to] = [roofRear + 0.008, roofFront - 0.008];
    pieces.push(bar([from, y, shape.roof + 0.006], [to, y, shape.roof + 0.006], 0.0018, cage));
    for (const x of [from + 0.004, (from + to) / 2, to - 0.004])
      pieces.push(bar([x, y, shape.roof - 0.001], [x, y, shape.roof + 0.006], 0.0015, cage));
  }
  pieces.push(
    block([0.008, 2 * rackWidth, 0.009], plastic, [roofFront - 0.004, 0, shape.roof + 0.006]),
    block([0.001, 2 * rackWidth - 0.006, 0.006], plain('#f3f0e2', 0.2), [
      roofFront + 0.0005,
      0,
      shape.roof + 0.006,
    ]),
  );

  // Flares along the arches.
  for (const [circle, from, to] of [
    [rearArch, rise(rearArch, shape.tail), shape.sill],
    [frontArch, shape.sill, noseLow],
  ] as const) {
    const isFront = circle === frontArch;
    const begin = isFront
      ? angleAt(circle, circle.x - chord(circle, from), from)
      : angleAt(circle, shape.tail, from);
    const end = isFront ? angleAt(circle, shape.nose, to) : angleAt(circle, circle.x + chord(circle, to), to);
    const path = new Path().absarc(circle.x, circle.z, circle.radius + 0.0005, begin, end, true);
    for (const y of [-half - 0.001, half + 0.001])
      pieces.push(
        tube(
          path.getPoints(24).map((point): Vector => [point.x, y, point.y]),
          0.0034,
          plastic,
        ),
      );
  }

  // Nose: grille, lamps; tail lamps; door handles, mirrors, hood scoop.
  const grilleHigh = shape.hood - 0.02;
  pieces.push(block([0.003, 2 * half - 0.05, 0.018], plastic, [shape.nose, 0, grilleHigh - 0.004]));
  for (const y of [-half + 0.017, half - 0.017]) {
    pieces.push(
      bar(
        [shape.nose - 0.004, y, grilleHigh - 0.003],
        [shape.nose + 0.0022, y, grilleHigh - 0.003],
        0.009,
        alloy(),
      ),
      bar(
        [shape.nose, y, grilleHigh - 0.003],
        [shape.nose + 0.003, y, grilleHigh - 0.003],
        0.0072,
        plain('#f4f1e4', 0.12),
      ),
      block([0.003, 0.012, 0.02], plain('#a01818', 0.25), [shape.tail, y, shape.bed - 0.018]),
    );
  }
  for (const side of [-1, 1]) {
    const y = side * (half + 0.0012);
    for (const x of [shape.cabEnd + 0.018, pillar + 0.016])
      pieces.push(block([0.014, 0.0024, 0.0034], plastic, [x, y, shape.hood - 0.013]));
    const mirror: Vector = [along(sillLine) - 0.016, side * (half + 0.011), shape.hood + 0.012];
    pieces.push(
      block([0.006, 0.012, 0.016], plastic, mirror),
      bar([mirror[0], side * (half - 0.004), shape.hood + 0.006], mirror, 0.0015, plastic),
    );
  }
  pieces.push(
    block([0.05, 0.05, 0.008], paint, [shape.windshield + 0.075, 0, shape.hood - 0.001]),
    block([0.002, 0.042, 0.005], plastic, [shape.windshield + 0.1005, 0, shape.hood]),
    // Snorkel along the right-hand windshield pillar.
    bar(
      [shape.windshield + 0.03, -half + 0.006, shape.hood - 0.002],
      [shape.windshield + 0.004, -half + 0.006, shape.hood + 0.004],
      0.0036,
      plastic,
    ),
    tube(
      [
        [shape.windshield + 0.004, -half + 0.006, shape.hood + 0.004],
        [roofFront + 0.012, -half * (1 - leanIn * (shape.roof - shape.hood)) + 0.004, shape.roof - 0.004],
        [roofFront + 0.01, -half * (1 - leanIn * (shape.roof - shape.hood)) + 0.004, shape.roof + 0.012],
      ],
      0.0034,
      plastic,
    ),
  );

  // Bed: liner, load and rails; hoop behind the cab.
  const bedLength = shape.cabEnd - shape.tail;
  const bedMiddle = (shape.cabEnd + shape.tail) / 2 - 0.004;
  pieces.push(
    block([bedLength - 0.03, 2 * half - 0.02, 0.0015], plastic, [bedMiddle, 0, shape.bed + 0.0003]),
    block([0.034, 0.046, 0.022], plain('#b8862c', 0.6), [bedMiddle + 0.034, 0.034, shape.bed + 0.011]),
    block([0.034, 0.048, 0.003], plain('#8a631c', 0.6), [bedMiddle + 0.034, 0.034, shape.bed + 0.0235]),
    block([0.03, 0.03, 0.016], plain('#3d5c49', 0.7), [bedMiddle + 0.036, -0.036, shape.bed + 0.008]),
  );
  const spare = wheel(truck.rearRadius * 0.74, 0.028, 0.012, -1, draw, livery.accent);
  spare.rotation.x = -Math.PI / 2;
  spare.position.set(bedMiddle - 0.022, 0.012, shape.bed + 0.015);
  pieces.push(spare);
  for (const side of [-1, 1]) {
    const y = side * (half - 0.006);
    pieces.push(
      tube(
        [
          [shape.cabEnd - 0.02, y, shape.bed + 0.006],
          [shape.tail + 0.02, y, shape.bed + 0.006],
          [shape.tail + 0.006, y, shape.bed - 0.001],
        ],
        0.002,
        cage,
      ),
      bar(
        [shape.cabEnd - 0.02, y, shape.bed - 0.002],
        [shape.cabEnd - 0.02, y, shape.bed + 0.006],
        0.002,
        cage,
      ),
    );
  }
  const hoop = truck.hooks.find(({ id }) => id === 'hoop');
  if (hoop) {
    const [x, , z] = hoop.place;
    const top = z - 0.0075;
    const y = half - 0.02;
    pieces.push(
      tube(
        [
          [x, -y - 0.004, shape.bed - 0.004],
          [x, -y, top - 0.014],
          [x, -y + 0.012, top],
          [x, 0, top],
          [x, y - 0.012, top],
          [x, y, top - 0.014],
          [x, y + 0.004, shape.bed - 0.004],
        ],
        0.0034,
        cage,
      ),
      bar([x, -y + 0.006, top - 0.006], [x - 0.055, -y, shape.bed], 0.0026, cage),
      bar([x, y - 0.006, top - 0.006], [x - 0.055, y, shape.bed], 0.0026, cage),
    );
  }

  // Bumpers, sliders with their bolts.
  const slider = Math.max(
    ...truck.landmarks.filter(({ key }) => key === 'C').map(({ place: [, y] }) => -y),
    half,
  );
  const [sliderFront, sliderRear] = [
    frontArch.x - chord(frontArch, shape.sill) - 0.002,
    rearArch.x + chord(rearArch, shape.sill) + 0.002,
  ];
  const sliderHeight = shape.sill + 0.005;
  for (const side of [-1, 1]) {
    const y = side * (slider - 0.0048);
    pieces.push(
      tube(
        [
          [sliderRear, side * (half - 0.01), sliderHeight - 0.003],
          [sliderRear + 0.012, y, sliderHeight],
          [sliderFront - 0.012, y, sliderHeight],
          [sliderFront, side * (half - 0.01), sliderHeight - 0.003],
        ],
        0.0038,
        cage,
      ),
    );
    for (const part of [0.2, 0.5, 0.8]) {
      const x = sliderRear + part * (sliderFront - sliderRear);
      pieces.push(bar([x, side * (half - 0.012), sliderHeight - 0.002], [x, y, sliderHeight], 0.0028, cage));
    }
  }
  const bumper = (x: number, outward: 1 | -1, z: number): void => {
    const y = half - 0.012;
    pieces.push(
      tube(
        [
          [x - outward * 0.03, -y - 0.006, z],
          [x, -y + 0.012, z],
          [x + outward * 0.002, 0, z],
          [x, y - 0.012, z],
          [x - outward * 0.03, y + 0.006, z],
        ],
        0.0045,
        cage,
      ),
      block([0.02, 0.09, 0.016], cage, [x - outward * 0.006, 0, z]),
    );
  };
  bumper(shape.nose + 0.013, 1, noseLow - 0.012);
  bumper(shape.tail - 0.01, -1, tailLow - 0.004);
  pieces.push(
    bar(
      [shape.nose + 0.004, -0.03, noseLow + 0.004],
      [shape.nose + 0.004, 0.03, noseLow + 0.004],
      0.008,
      alloy('#5b6064'),
    ),
    tube(
      [
        [shape.nose + 0.014, -0.036, noseLow - 0.01],
        [shape.nose + 0.012, -0.034, shape.hood - 0.016],
        [shape.nose + 0.01, 0.034, shape.hood - 0.016],
        [shape.nose + 0.014, 0.036, noseLow - 0.01],
      ],
      0.003,
      cage,
    ),
  );

  for (const mark of truck.landmarks) {
    const [x, y, z] = mark.place;
    pieces.push(...bolt([x, y, z], -1), ...bolt([x, -y, z], 1));
  }
  return pieces;
};

/** A bolt on a bright washer; the center of its outer face is the landmark. */
const bolt = ([x, y, z]: Vector, outward: 1 | -1): Mesh[] => [
  bar([x, y - outward * 0.004, z], [x, y - outward * 0.0008, z], 0.0046, plain('#17181a', 0.6), 40),
  bar([x, y - outward * 0.004, z], [x, y - outward * 0.0004, z], 0.0036, plain('#f1efe8', 0.35, 0.1), 40),
  bar([x, y - outward * 0.004, z], [x, y, z], 0.0013, plain('#101112', 0.5), 24),
];

const sideTexture = (truck: WorldTruck, livery: Livery, draw: Random) => {
  const { shape, wheelbase } = truck;
  const [left, right] = [shape.tail - 0.01, shape.nose + 0.01];
  const [bottom, top] = [shape.sill - 0.02, shape.hood + 0.01];
  const perMeter = 5000;
  const texture = painted((right - left) * perMeter, (top - bottom) * perMeter, (context) => {
    const { width, height } = context.canvas;
    context.setTransform(perMeter, 0, 0, -perMeter, -left * perMeter, top * perMeter);
    context.fillStyle = livery.paint;
    context.fillRect(left, bottom, right - left, top - bottom);
    // Second color below a swept line, a pinstripe along it.
    const line = new Path2D();
    line.moveTo(left, shape.sill + 0.014);
    line.lineTo(wheelbase * 0.3, shape.sill + 0.017);
    line.quadraticCurveTo(wheelbase * 0.6, shape.sill + 0.02, wheelbase * 0.74, shape.hood - 0.014);
    line.lineTo(right, shape.hood - 0.01);
    const below = new Path2D(line);
    below.lineTo(right, bottom);
    below.lineTo(left, bottom);
    below.closePath();
    context.fillStyle = livery.second;
    context.fill(below);
    context.strokeStyle = livery.accent;
    context.lineWidth = 0.0022;
    context.stroke(line);
    // Thorned shoots along the door: the truck's own drawing.
    context.lineWidth = 0.0012;
    context.strokeStyle = livery.second;
    context.fillStyle = livery.second;
    const shoot = shape.hood - 0.017;
    context.beginPath();
    context.moveTo(wheelbase * 0.33, shoot);
    context.bezierCurveTo(
      wheelbase * 0.42,
      shoot + 0.008,
      wheelbase * 0.48,
      shoot - 0.008,
      wheelbase * 0.56,
      shoot,
    );
    context.stroke();
    for (const [part, up] of [
      [0.36, 1],
      [0.41, -1],
      [0.46, 1],
      [0.51, -1],
    ] as const) {
      context.beginPath();
      context.ellipse(wheelbase * part, shoot + up * 0.0045, 0.005, 0.0022, up * 0.7, 0, 7);
      context.fill();
    }
    // Seams of doors, hood and bed.
    context.strokeStyle = '#120d0f';
    context.lineWidth = 0.0009;
    const pillar = shape.cabEnd + 0.46 * (shape.windshield - shape.cabEnd);
    for (const x of [shape.cabEnd - 0.005, shape.cabEnd + 0.008, pillar, shape.windshield - 0.002]) {
      context.beginPath();
      context.moveTo(x, top);
      context.lineTo(x, shape.sill + 0.004);
      context.stroke();
    }
    context.beginPath();
    context.moveTo(shape.windshield + 0.004, shape.hood - 0.0065);
    context.lineTo(right, shape.hood - 0.0105);
    context.stroke();
    // Dust thrown up from the sill and arches.
    context.setTransform(1, 0, 0, 1, 0, 0);
    for (let index = 0; index < 2600; index += 1) {
      const up = draw.unit() ** 2.4;
      context.globalAlpha = 0.28 * (1 - up) * draw.unit();
      context.fillStyle = draw.unit() < 0.7 ? '#a58d6b' : '#6d5a43';
      context.beginPath();
      context.ellipse(
        draw.unit() * width,
        height * (1 - up),
        draw.between(1, 9),
        draw.between(1, 6),
        0,
        0,
        7,
      );
      context.fill();
    }
    context.globalAlpha = 1;
    blots(context, draw, 60, ['#ffffff', '#000000'], [0.5, 1.6], 0.25);
  });
  // The extruded caps carry their (x, z) as texture coordinates, in meters.
  texture.repeat.set(1 / (right - left), 1 / (top - bottom));
  texture.offset.set(-left / (right - left), -bottom / (top - bottom));
  return texture;
};

/** Frame, gearbox, links, shocks and shafts: what joins body and axles. */
const underside = (truck: WorldTruck, photograph: Photograph, livery: Livery): Group['children'] => {
  const { wheelbase, shape } = truck;
  const frame = plain('#26282a', 0.5, 0.4);
  const gold = plain(livery.accent, 0.4, 0.4);
  const spring = plain('#c9c5b8', 0.4, 0.3);
  const pieces: Group['children'] = [];
  for (const y of [-0.032, 0.032])
    pieces.push(
      block([wheelbase + 0.075, 0.004, 0.014], frame, [wheelbase / 2 + 0.002, y, shape.sill + 0.012]),
    );
  pieces.push(
    block([0.11, 0.075, 0.006], frame, [wheelbase / 2, 0, shape.sill - 0.014]),
    block([0.05, 0.05, 0.03], frame, [wheelbase / 2, 0, shape.sill]),
    block([wheelbase + 0.06, 0.08, 0.012], frame, [wheelbase / 2, 0, shape.sill + 0.036]),
  );
  for (const axleName of ['front', 'rear'] as const) {
    const [x, radius, inward] =
      axleName === 'front' ? [wheelbase, truck.frontRadius, -1] : [0, truck.rearRadius, 1];
    const hub = add(
      [x, 0, radius],
      carrierShift(truck, axleName === 'front' ? 'front axle' : 'rear axle', photograph.droop),
    );
    for (const side of [-1, 1]) {
      pieces.push(
        bar(
          add(hub, [inward * 0.006, side * 0.042, -0.008]),
          [wheelbase / 2 - inward * 0.05, side * 0.03, shape.sill - 0.008],
          0.0028,
          alloy(),
        ),
        bar(
          add(hub, [inward * 0.004, side * 0.018, 0.018]),
          [wheelbase / 2 - inward * 0.045, side * 0.028, shape.sill + 0.006],
          0.0025,
          alloy(),
        ),
      );
      const foot = add(hub, [-inward * 0.012, side * 0.05, 0.006]);
      const head: Vector = [x + inward * 0.012, side * 0.044, shape.bed - 0.012];
      pieces.push(
        bar(foot, head, 0.0022, steel()),
        bar(scale(add(foot, head), 0.5), head, 0.0052, gold),
        coil(foot, head, 0.0072, 9, spring),
      );
    }
    pieces.push(
      bar(
        add(hub, [inward * 0.02, 0, 0.006]),
        [wheelbase / 2 - inward * 0.03, 0, shape.sill],
        0.0034,
        steel(),
      ),
    );
  }
  return pieces;
};

const coil = (from: Vector, to: Vector, radius: number, turns: number, material: Material): Mesh => {
  const [a, b] = [new Vector3(...from), new Vector3(...to)];
  const axis = b.clone().sub(a);
  const across = new Vector3(0, 1, 0).cross(axis).normalize();
  const third = axis.clone().normalize().cross(across);
  const points = Array.from({ length: turns * 12 + 1 }, (_, index) => {
    const angle = (index * Math.PI) / 6;
    return a
      .clone()
      .addScaledVector(axis, 0.12 + (0.76 * index) / (turns * 12))
      .addScaledVector(across, radius * Math.cos(angle))
      .addScaledVector(third, radius * Math.sin(angle));
  });
  return solid(new Mesh(new TubeGeometry(new CatmullRomCurve3(points), turns * 20, 0.0011, 6), material));
};

const axle = (
  truck: WorldTruck,
  photograph: Photograph,
  which: 'front' | 'rear',
  livery: Livery,
  draw: Random,
): Group['children'] => {
  const carrier = which === 'front' ? 'front axle' : 'rear axle';
  const [x, radius, track] =
    which === 'front'
      ? [truck.wheelbase, truck.frontRadius, truck.frontTrack]
      : [0, truck.rearRadius, truck.rearTrack];
  const group = new Group();
  const housing = plain('#3a3d40', 0.5, 0.45);
  for (const side of [-1, 1] as const) {
    const rolling = wheel(radius, truck.treadWidth, truck.hubDepth - track / 2, side, draw, livery.accent);
    rolling.position.y = (side * track) / 2;
    rolling.rotation.y = draw.unit() * 6;
    group.add(rolling);
  }
  group.add(
    bar([0, -track / 2 + 0.012, 0], [0, track / 2 - 0.012, 0], 0.0072, housing),
    bar([0, -0.014, 0.001], [0, 0.016, 0.001], 0.0165, housing, 28),
    block([0.022, 0.05, 0.01], housing, [0, 0, 0.014]),
  );
  if (which === 'front') group.add(block([0.02, 0.04, 0.024], black(), [0.012, 0.016, 0.02]));
  const eye = truck.hooks.find((hook) => hook.carrier === carrier);
  if (eye) {
    // Two arms from the housing to the eye, ahead of or behind the tires.
    const reach = eye.place[0] - x;
    const [y, z] = [eye.place[1], eye.place[2] - radius];
    const out = Math.sign(reach);
    const steelBar = plain('#70757a', 0.4, 0.6);
    for (const side of [-1, 1])
      group.add(
        tube(
          [
            [0, side * 0.03, -0.004],
            [reach * 0.6, side * 0.028, z - 0.004],
            [reach - out * 0.0075, y + side * 0.004, z],
          ],
          0.0028,
          steelBar,
        ),
      );
    group.add(
      bar([reach * 0.6, -0.03, z - 0.004], [reach * 0.6, 0.03, z - 0.004], 0.0026, steelBar),
      block([0.006, 0.016, 0.008], steelBar, [reach - out * 0.0085, y, z]),
    );
  }
  const [sx, sy, sz] = carrierShift(truck, carrier, photograph.droop);
  group.position.set(x + sx, sy, radius + sz);
  return [group];
};

/** Every hook is a small ring about its place, on a short post. */
const hooks = (truck: WorldTruck, photograph: Photograph): Group['children'] =>
  truck.hooks.flatMap((hook) => {
    const at = add(hook.place, carrierShift(truck, hook.carrier, photograph.droop));
    const [x, y, z] = at;
    const bright = plain('#d9b04a', 0.3, 0.7);
    const pieces: Group['children'] = [ring(at, 0.0042, 0.0012, bright)];
    if (hook.id === 'hood')
      pieces.push(
        bar([x, y, truck.shape.hood - 0.003], [x, y, z - 0.0048], 0.0016, bright),
        bar([x, y, truck.shape.hood - 0.003], [x, y, truck.shape.hood + 0.0016], 0.006, black(), 24),
      );
    if (hook.id === 'hoop') pieces.push(bar([x, y, z - 0.009], [x, y, z - 0.0048], 0.0022, bright));
    if (hook.id === 'bed')
      pieces.push(
        bar([x, y, truck.shape.bed - 0.004], [x, y, z - 0.0048], 0.0018, bright),
        block([0.012, 0.022, 0.003], black(), [x, y, truck.shape.bed + 0.001]),
      );
    if (photograph.hook === hook.id) pieces.push(ball(at, 0.0017, plain('#efe9da', 0.9)));
    return pieces;
  });
