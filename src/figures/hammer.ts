import { type CompositeCg, type Estimate, compositeCg, kilograms, meters, millimeters } from '../physics';

/**
 * An invented hammer of two materials, whose center of gravity is known by calculation: a steel head with an eye and
 * an ash handle through it. Its own axes, mm: along the handle from the middle of its butt end, across it toward the
 * peen. Everything is symmetric in depth.
 */

/** A block with straight edges, mm; `deep` is its thickness. */
export interface Block {
  readonly name: string;
  readonly material: 'steel' | 'ash';
  readonly along: readonly [number, number];
  readonly across: readonly [number, number];
  readonly deep: number;
}

export const HAMMER_LENGTH = 330;
const HEAD: readonly [number, number] = [302, 330];

export const HAMMER_BLOCKS: readonly Block[] = [
  { name: 'face side', material: 'steel', along: HEAD, across: [-45, -12], deep: 28 },
  { name: 'peen side', material: 'steel', along: HEAD, across: [12, 65], deep: 28 },
  // Beside the eye, which is 24 by 16 mm: two cheeks of 6 mm.
  { name: 'cheeks', material: 'steel', along: HEAD, across: [-12, 12], deep: 12 },
  { name: 'handle', material: 'ash', along: [0, HAMMER_LENGTH], across: [-12, 12], deep: 16 },
];

/**
 * kg/m³. Steel: as tables of rolled sections count it, within the 77.0 to 78.5 kN/m³ of EN 1991-1-1:2002, table A.4.
 * White ash: specific gravity 0.60 at 12 % moisture, Wood Handbook, FPL-GTR-190, table 5-3a, by oven-dry mass and volume
 * at 12 %; so the mass at 12 % is 1.12 times as much.
 */
export const DENSITY: Readonly<Record<Block['material'], number>> = { steel: 7850, ash: 600 * 1.12 };

/** Where the thread is tied, mm along and across. */
export const HAMMER_HOOKS = {
  butt: { along: 0, across: 0 },
  peen: { along: 316, across: 65 },
  face: { along: 316, across: -45 },
} as const;

const exact = <Kind extends number>(value: Kind): Estimate<Kind> => ({ value, u: 0 });
const middle = ([from, to]: readonly [number, number]): number => (from + to) / 2;

/** Mass of a block, kg. */
export const blockMass = ({ along, across, deep, material }: Block, density = DENSITY): number =>
  (along[1] - along[0]) * (across[1] - across[0]) * deep * 1e-9 * density[material];

/** Mass and center of gravity of the hammer in its own axes: x along, z across. */
export function hammerCg(density = DENSITY): CompositeCg {
  const cg = compositeCg(
    HAMMER_BLOCKS.map((block) => ({
      mass: exact(kilograms(blockMass(block, density))),
      x: exact(millimeters(middle(block.along))),
      y: exact(meters(0)),
      z: exact(millimeters(middle(block.across))),
    })),
  );
  if (!cg.ok) throw new Error(cg.message);
  return cg.value;
}
