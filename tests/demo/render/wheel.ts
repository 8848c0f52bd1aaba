import { CylinderGeometry, Group, LatheGeometry, Mesh, TorusGeometry, Vector2 } from 'three';
import type { Random } from '../world/random';
import { alloy, black, plain, rubber, steel } from './materials';
import { bar, block, solid } from './solids';

/**
 * A lugged tire on a beadlock wheel, axis along y, hub at the origin; `outward` is -1 for the right side. The
 * nut's outer face lies `nut` m from the wheel's middle plane.
 */
export const wheel = (
  radius: number,
  tread: number,
  nut: number,
  outward: 1 | -1,
  draw: Random,
  accent: string,
): Group => {
  const group = new Group();
  const tireMaterial = rubber(draw);
  const half = tread / 2;
  const carcass = radius - 0.0042;
  const rim = radius * 0.53;
  const lathe = (points: readonly (readonly [number, number])[], material = tireMaterial): Mesh =>
    solid(
      new Mesh(
        new LatheGeometry(
          points.map(([r, y]) => new Vector2(r, y)),
          64,
        ),
        material,
      ),
    );
  group.add(
    lathe([
      [rim, -half * 0.78],
      [rim + 0.004, -half * 0.9],
      [radius * 0.72, -half * 0.98],
      [carcass - 0.008, -half * 0.96],
      [carcass - 0.002, -half * 0.8],
      [carcass, -half * 0.5],
      [carcass, half * 0.5],
      [carcass - 0.002, half * 0.8],
      [carcass - 0.008, half * 0.96],
      [radius * 0.72, half * 0.98],
      [rim + 0.004, half * 0.9],
      [rim, half * 0.78],
    ]),
  );
  // Raised ribs on the sidewall.
  for (const side of [-1, 1])
    for (const r of [radius * 0.66, radius * 0.8]) {
      const rib = solid(new Mesh(new TorusGeometry(r, 0.0006, 6, 72), tireMaterial));
      rib.rotation.x = Math.PI / 2;
      rib.position.y = side * half * 0.985;
      group.add(rib);
    }
  const lugs = 22;
  const start = draw.unit();
  for (let index = 0; index < lugs; index += 1) {
    const step = (2 * Math.PI) / lugs;
    const lug = (
      angle: number,
      sizes: readonly [number, number, number],
      y: number,
      out: number,
      skew: number,
    ): void => {
      const pivot = new Group();
      pivot.rotation.y = angle;
      const piece = block(sizes, tireMaterial, [0, y, out]);
      piece.rotation.z = skew;
      pivot.add(piece);
      group.add(pivot);
    };
    const angle = (index + start) * step;
    const depth = 0.0048;
    const top = radius - depth / 2 - 0.0002;
    for (const side of [-1, 1]) {
      const off = side === 1 ? step / 2 : 0;
      lug(angle + off, [0.0074, half * 0.52, depth], side * half * 0.27, top, side * 0.35);
      lug(
        angle + off + step * 0.36,
        [0.0064, half * 0.46, depth],
        side * half * 0.7,
        top - 0.0006,
        side * -0.2,
      );
      // Shoulder blocks come down the sidewall.
      lug(angle + off + step * 0.36, [0.006, 0.0028, 0.0085], side * half * 0.95, top - 0.0052, 0);
    }
  }

  const face = outward * half * 0.72;
  const bright = alloy('#a8adb1').clone();
  const dark = plain('#2c2e30', 0.45, 0.6).clone();
  const beadlock = lathe(
    [
      [rim * 0.82, face - outward * 0.004],
      [rim * 0.84, face + outward * 0.0025],
      [rim * 1.02, face + outward * 0.0025],
      [rim * 1.06, face - outward * 0.002],
    ],
    bright,
  );
  beadlock.material = bright;
  bright.side = 2;
  group.add(beadlock);
  const barrel = lathe(
    [
      [rim * 0.83, -half * 0.75],
      [rim * 0.83, half * 0.75],
    ],
    dark,
  );
  dark.side = 2;
  group.add(barrel);
  const bolt = steel();
  for (let index = 0; index < 12; index += 1) {
    const angle = (index * Math.PI) / 6 + start;
    const [x, z] = [rim * 0.93 * Math.cos(angle), rim * 0.93 * Math.sin(angle)];
    group.add(bar([x, face, z], [x, face + outward * 0.0042, z], 0.0011, bolt, 6));
  }
  const dish = face - outward * 0.006;
  for (let index = 0; index < 6; index += 1) {
    const angle = (index * Math.PI) / 3 + start;
    const spoke = block([rim * 0.84, 0.0045, 0.0072], bright, [rim * 0.44, 0, 0]);
    const pivot = new Group();
    pivot.position.y = dish;
    pivot.rotation.y = angle;
    pivot.add(spoke);
    group.add(pivot);
  }
  const disc = (
    r: number,
    from: number,
    to: number,
    material: ReturnType<typeof steel>,
    sides: number,
  ): Mesh => {
    const mesh = solid(new Mesh(new CylinderGeometry(r, r, Math.abs(to - from), sides), material));
    mesh.position.y = (from + to) / 2;
    return mesh;
  };
  const end = outward * nut;
  group.add(disc(0.0088, dish - outward * 0.004, dish + outward * 0.0035, dark, 32));
  group.add(disc(0.0052, dish, end - outward * 0.0003, plain(accent, 0.35, 0.55), 6));
  group.add(disc(0.0019, dish, end, black(), 24));
  return group;
};
