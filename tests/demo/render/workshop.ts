import { Group, Mesh, PlaneGeometry } from 'three';
import type { Photograph } from '../world/photograph';
import type { Random } from '../world/random';
import type { Vector } from '../world/vector';
import { alloy, black, blots, lacquer, painted, plain, steel, textured } from './materials';
import { bar, block, solid, tube } from './solids';

/** Wall to the truck's center plane, m; the far side of the truck faces it. */
const WALL = 0.62;

/**
 * The workshop around a truck: bench top (at height `top`), pegboard with tools, shelf with boxes and jars.
 * Built for a camera on the right; seen from the left it is turned round.
 */
export const workshop = (photograph: Photograph, top: number, draw: Random, blue: boolean): Group => {
  const group = new Group();
  const hanging = photograph.kind === 'hanging';
  group.add(...benchTop(top, hanging, draw), ...wall(top, draw, blue), ...onTheWall(top, hanging, draw));
  group.add(...onTheBench(top, hanging, draw), ...shelf(top + (hanging ? 0.86 : 0.46), draw));
  if (hanging) group.add(...foam(top, draw), ...cable(top, draw));
  if (photograph.side === 'left') group.rotation.z = Math.PI;
  return group;
};

/** The string itself, from the hook's ring up and out of the picture. */
export const string = (pale: boolean): Group => {
  const group = new Group();
  const cord = plain(pale ? '#f6f3e8' : '#f2e04c', 0.95);
  group.add(bar([0, 0, 0], [0, 0, 1.4], 0.00085, cord, 10));
  // A knot above the ring: turns of cord around it.
  for (let index = 0; index < 5; index += 1)
    group.add(bar([0, 0, 0.0075 + index * 0.0016], [0, 0, 0.0089 + index * 0.0016], 0.0017, cord, 12));
  return group;
};

const wood = (draw: Random, base: string, dark: string, width: number, height: number) =>
  painted(width, height, (context) => {
    context.fillStyle = base;
    context.fillRect(0, 0, width, height);
    for (let index = 0; index < height * 1.2; index += 1) {
      context.globalAlpha = 0.05 + 0.16 * draw.unit();
      context.strokeStyle = draw.unit() < 0.75 ? dark : '#fff3d8';
      context.lineWidth = draw.between(0.4, 2.4);
      const y = draw.unit() * height;
      context.beginPath();
      context.moveTo(0, y);
      context.bezierCurveTo(
        width * 0.3,
        y + draw.between(-9, 9),
        width * 0.6,
        y + draw.between(-9, 9),
        width,
        y + draw.between(-5, 5),
      );
      context.stroke();
    }
    blots(context, draw, 70, [dark, '#3b2a1a', '#d9c8a8'], [2, 22], 0.12);
    blots(context, draw, 25, ['#20201f'], [0.6, 3], 0.5);
  });

const benchTop = (top: number, hanging: boolean, draw: Random): Group['children'] => {
  const material = textured(wood(draw, '#a98b66', '#63472c', 2048, 1024), 0.7);
  const edge = hanging ? -0.3 : -0.128;
  const depth = WALL - edge;
  const board = block([3.4, depth, 0.036], material, [0.1, (WALL + edge) / 2, top - 0.018]);
  const lip = block([3.4, 0.006, 0.04], textured(wood(draw, '#8d6a43', '#4f341b', 1024, 64), 0.7), [
    0.1,
    edge - 0.002,
    top - 0.021,
  ]);
  const pieces: Group['children'] = [board, lip];
  if (!hanging) {
    // Drawers below the bench's edge.
    for (let index = -3; index < 4; index += 1) {
      pieces.push(
        block([0.36, 0.02, 0.2], plain('#5d6b70', 0.5, 0.2), [index * 0.372 + 0.1, edge + 0.03, top - 0.15]),
        bar(
          [index * 0.372 + 0.04, edge + 0.012, top - 0.085],
          [index * 0.372 + 0.16, edge + 0.012, top - 0.085],
          0.004,
          steel(),
        ),
      );
    }
    // A worn cutting mat under the truck.
    const mat = painted(1024, 512, (context) => {
      context.fillStyle = '#37564f';
      context.fillRect(0, 0, 1024, 512);
      blots(context, draw, 300, ['#2a433d', '#49695f', '#8d8468'], [1, 14], 0.2);
      context.globalAlpha = 0.25;
      context.strokeStyle = '#b9c9a8';
      for (let index = 0; index < 40; index += 1) {
        context.lineWidth = 0.6;
        context.beginPath();
        context.moveTo(draw.unit() * 1024, draw.unit() * 512);
        context.lineTo(draw.unit() * 1024, draw.unit() * 512);
        context.stroke();
      }
    });
    const sheet = block([0.86, 0.34, 0.0016], textured(mat, 0.85), [0.15, 0.33, top + 0.0008]);
    pieces.push(sheet);
  }
  return pieces;
};

const wall = (top: number, draw: Random, blue: boolean): Group['children'] => {
  const color = blue ? ['#3f5560', '#33464f'] : ['#4b4f45', '#3b3f37'];
  const board = painted(1024, 1024, (context) => {
    context.fillStyle = color[0] ?? '#444';
    context.fillRect(0, 0, 1024, 1024);
    blots(context, draw, 260, [color[1] ?? '#333', '#5f7680', '#2c3a40'], [6, 60], 0.14);
    for (let row = 0; row < 16; row += 1)
      for (let column = 0; column < 16; column += 1) {
        const [x, y] = [column * 64 + 32, row * 64 + 32];
        context.fillStyle = '#12181b';
        context.beginPath();
        context.arc(x, y, 7.5, 0, 7);
        context.fill();
        context.strokeStyle = 'rgba(255,255,255,0.16)';
        context.lineWidth = 1.5;
        context.beginPath();
        context.arc(x, y + 0.8, 7.8, 0.3, 2.8);
        context.stroke();
      }
  });
  board.repeat.set(3.4 / 0.4064, 2.2 / 0.4064);
  const plane = solid(new Mesh(new PlaneGeometry(3.4, 2.2), textured(board, 0.85)));
  plane.castShadow = false;
  plane.rotation.x = Math.PI / 2;
  plane.position.set(0.1, WALL, top + 1.1);
  const rail = block([3.4, 0.018, 0.05], textured(wood(draw, '#9a774c', '#54381c', 1024, 64), 0.75), [
    0.1,
    WALL - 0.01,
    top + 0.025,
  ]);
  return [plane, rail];
};

/** Tools on hooks, a taped drawing, a clip board. */
const onTheWall = (top: number, hanging: boolean, draw: Random): Group['children'] => {
  const pieces: Group['children'] = [];
  const y = WALL - 0.02;
  const handles = ['#9c3d2c', '#b8923a', '#35597a', '#2b2b2d', '#3d664a', '#5a4632'];
  const pick = (): string => handles[Math.floor(draw.unit() * handles.length)] ?? '#333';
  const driver = (x: number, z: number, long: number): void => {
    const grip = lacquer(pick());
    pieces.push(
      bar([x, y, z], [x, y, z - 0.085], 0.0125, grip, 10),
      bar([x, y, z + 0.004], [x, y, z], 0.011, grip, 10),
      bar([x, y, z - 0.085], [x, y, z - 0.085 - long], 0.0032, steel()),
      block([0.05, 0.012, 0.006], alloy(), [x, y + 0.008, z - 0.06]),
    );
  };
  const pliers = (x: number, z: number): void => {
    const grip = lacquer(pick());
    for (const side of [-1, 1]) {
      pieces.push(
        tube(
          [
            [x + side * 0.004, y, z],
            [x + side * 0.017, y, z - 0.035],
            [x + side * 0.013, y, z - 0.1],
          ],
          0.0058,
          grip,
        ),
        bar([x + side * 0.004, y, z], [x + side * 0.0035, y, z + 0.05], 0.006, steel(), 6),
      );
    }
    pieces.push(bar([x, y - 0.008, z], [x, y + 0.006, z], 0.009, steel()));
  };
  const wrench = (x: number, z: number, long: number): void => {
    const metal = plain('#62666a', 0.45, 0.75);
    pieces.push(
      block([0.011, 0.005, long], metal, [x, y, z - long / 2]),
      bar([x, y - 0.004, z], [x, y + 0.004, z], 0.014, metal, 24),
      bar([x, y - 0.0045, z], [x, y + 0.0045, z], 0.007, black(), 6),
      bar([x, y - 0.004, z - long], [x, y + 0.004, z - long], 0.012, metal, 24),
    );
  };
  const saw = (x: number, z: number): void => {
    const grip = lacquer(pick());
    pieces.push(
      tube(
        [
          [x - 0.14, y, z],
          [x - 0.14, y, z + 0.075],
          [x + 0.12, y, z + 0.075],
          [x + 0.12, y, z],
        ],
        0.004,
        steel(),
        0.02,
      ),
      block([0.26, 0.001, 0.009], steel(), [x - 0.01, y, z]),
      bar([x + 0.12, y, z + 0.02], [x + 0.16, y, z - 0.07], 0.013, grip, 12),
    );
  };
  const drawing = (x: number, z: number, tilt: number): void => {
    const paper = painted(420, 594, (context) => {
      context.fillStyle = '#e9e4d6';
      context.fillRect(0, 0, 420, 594);
      context.strokeStyle = '#40525a';
      context.lineWidth = 2;
      context.strokeRect(26, 26, 368, 542);
      context.beginPath();
      context.arc(120, 300, 52, 0, 7);
      context.moveTo(352, 300);
      context.arc(300, 300, 52, 0, 7);
      context.moveTo(70, 250);
      context.lineTo(150, 180);
      context.lineTo(250, 180);
      context.lineTo(360, 235);
      context.stroke();
      context.lineWidth = 1;
      for (let index = 0; index < 9; index += 1) {
        context.beginPath();
        context.moveTo(60, 400 + index * 15);
        context.lineTo(60 + draw.between(120, 300), 400 + index * 15);
        context.stroke();
      }
      blots(context, draw, 20, ['#8d7a55'], [3, 20], 0.12);
    });
    const sheet = solid(new Mesh(new PlaneGeometry(0.21, 0.297), textured(paper, 0.95)));
    sheet.rotation.set(Math.PI / 2, 0, 0);
    sheet.rotateZ(tilt);
    sheet.position.set(x, WALL - 0.003, z);
    pieces.push(sheet);
  };
  const rows = hanging ? [top + 0.42, top + 0.75, top + 1.2] : [top + 0.36, top + 0.85];
  rows.forEach((z, row) => {
    for (let x = -0.85; x < 1.05;) {
      const kind = draw.unit();
      if (kind < 0.34) {
        const count = 2 + Math.floor(draw.unit() * 3);
        for (let index = 0; index < count; index += 1) driver(x + index * 0.048, z, draw.between(0.06, 0.13));
        x += count * 0.048 + 0.05;
      } else if (kind < 0.55) {
        pliers(x + 0.03, z - 0.04);
        x += 0.12;
      } else if (kind < 0.68) {
        const count = 3 + Math.floor(draw.unit() * 3);
        for (let index = 0; index < count; index += 1) wrench(x + index * 0.042, z, 0.2 - index * 0.022);
        x += count * 0.042 + 0.05;
      } else if (kind < 0.86) {
        saw(x + 0.16, z - 0.06);
        x += 0.4;
      } else {
        drawing(x + 0.13, z - 0.08 + row * 0.01, draw.between(-0.04, 0.04));
        x += 0.3;
      }
    }
  });
  return pieces;
};

/** Boxes, jars, paint cans, a small vise, spools: behind the truck. */
const onTheBench = (top: number, hanging: boolean, draw: Random): Group['children'] => {
  const pieces: Group['children'] = [];
  const colors = ['#7d4435', '#b39b6d', '#46596a', '#6f7459', '#c4bcab', '#54463a', '#36463f', '#a58358'];
  const pick = (): string => colors[Math.floor(draw.unit() * colors.length)] ?? '#777';
  for (let x = -0.8; x < 1.0;) {
    const kind = draw.unit();
    const y = draw.between(0.44, 0.53) + (hanging ? 0.02 : 0);
    if (kind < 0.3) {
      const [w, h] = [draw.between(0.08, 0.16), draw.between(0.05, 0.12)];
      pieces.push(
        block([w, 0.09, h], plain(pick(), 0.8), [x + w / 2, y, top + h / 2]),
        block([w * 0.6, 0.001, h * 0.45], plain('#e8e3d4', 0.9), [x + w / 2, y - 0.046, top + h * 0.52]),
      );
      if (draw.unit() < 0.5) {
        const [w2, h2] = [w * draw.between(0.5, 0.9), draw.between(0.03, 0.06)];
        pieces.push(
          block([w2, 0.07, h2], plain(pick(), 0.8), [x + w / 2 + 0.01, y + 0.005, top + h + h2 / 2]),
        );
      }
      x += w + draw.between(0.015, 0.05);
    } else if (kind < 0.62) {
      const [r, h] = [draw.between(0.018, 0.034), draw.between(0.05, 0.11)];
      const jar = plain(pick(), 0.3, 0.1);
      pieces.push(
        bar([x + r, y, top], [x + r, y, top + h], r, jar, 28),
        bar([x + r, y, top + h * 0.25], [x + r, y, top + h * 0.75], r + 0.0006, plain('#ece5d2', 0.8), 28),
        bar([x + r, y, top + h], [x + r, y, top + h + 0.014], r * 0.86, alloy(), 28),
      );
      x += 2 * r + draw.between(0.008, 0.03);
    } else if (kind < 0.8) {
      const r = draw.between(0.03, 0.045);
      const cheek = plain(pick(), 0.5);
      pieces.push(
        bar([x + r, y - 0.02, top + r], [x + r, y - 0.016, top + r], r, cheek, 36),
        bar([x + r, y + 0.016, top + r], [x + r, y + 0.02, top + r], r, cheek, 36),
        bar([x + r, y - 0.016, top + r], [x + r, y + 0.016, top + r], r * 0.8, plain(pick(), 0.6), 36),
      );
      x += 2 * r + draw.between(0.02, 0.05);
    } else {
      const metal = plain('#46584f', 0.5, 0.3);
      pieces.push(
        block([0.07, 0.09, 0.02], metal, [x + 0.05, y, top + 0.01]),
        block([0.05, 0.05, 0.06], metal, [x + 0.05, y, top + 0.05]),
        block([0.02, 0.075, 0.03], steel(), [x + 0.04, y, top + 0.092]),
        block([0.02, 0.075, 0.03], steel(), [x + 0.072, y, top + 0.092]),
        bar([x + 0.08, y, top + 0.055], [x + 0.13, y, top + 0.055], 0.006, steel()),
        bar([x + 0.125, y, top + 0.02], [x + 0.125, y, top + 0.09], 0.003, steel()),
      );
      x += 0.17;
    }
  }
  return pieces;
};

const shelf = (height: number, draw: Random): Group['children'] => {
  const pieces: Group['children'] = [
    block([2.4, 0.2, 0.02], textured(wood(draw, '#a98656', '#5c3f22', 1024, 256), 0.75), [
      0.1,
      WALL - 0.1,
      height,
    ]),
  ];
  for (const x of [-0.66, draw.eitherSign(0.15, 0.21), 0.72])
    pieces.push(
      block([0.022, 0.012, 1.6], alloy('#a5abad'), [x, WALL - 0.007, height - 0.2]),
      block([0.012, 0.18, 0.012], alloy('#a5abad'), [x, WALL - 0.1, height - 0.018]),
    );
  const colors = ['#8a4636', '#bda883', '#4b6070', '#75795f', '#8b6f4e', '#d4cbb8', '#a98a5e'];
  for (let x = -0.9; x < 1.1;) {
    const [w, h] = [draw.between(0.08, 0.2), draw.between(0.07, 0.16)];
    const color = colors[Math.floor(draw.unit() * colors.length)] ?? '#888';
    pieces.push(
      block([w, 0.14, h], plain(color, 0.8), [x + w / 2, WALL - 0.1, height + 0.01 + h / 2]),
      block([w * 0.5, 0.001, h * 0.3], plain('#e6e0d0', 0.9), [
        x + w / 2,
        WALL - 0.171,
        height + 0.01 + h * 0.5,
      ]),
    );
    x += w + draw.between(0.006, 0.06);
  }
  return pieces;
};

/** A foam pad below a hung truck. */
const foam = (top: number, draw: Random): Group['children'] => {
  const cells = painted(512, 512, (context) => {
    context.fillStyle = '#4a4f57';
    context.fillRect(0, 0, 512, 512);
    blots(context, draw, 1800, ['#33373d', '#666c75', '#24272b'], [1, 5], 0.3);
  });
  cells.repeat.set(3, 2);
  return [block([0.66, 0.36, 0.045], textured(cells, 0.98), [0.02, 0, top + 0.0225])];
};

/** The decoy: a straight light cable near the string, on its own way down, a degree or two off plumb. */
const cable = (top: number, draw: Random): Group['children'] => {
  const x = draw.eitherSign(0.07, 0.13);
  const lean = draw.eitherSign(0.015, 0.035);
  const y = draw.between(0.3, 0.42);
  const sleeve = plain('#d5d2c8', 0.6);
  const low = top + 0.1;
  const at = (z: number): Vector => [x + lean * z, y, z];
  return [bar(at(low), at(1.6), 0.0014, sleeve, 10), bar(at(low - 0.05), at(low), 0.006, black(), 16)];
};
