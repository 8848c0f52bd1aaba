/** Every tolerance of a test, with its reason. `value` is in `unit`. */
export interface Tolerance {
  readonly value: number;
  readonly unit: string;
  readonly reason: string;
}

const table = {
  'hang: CG under the hook': {
    value: 1e-8,
    unit: 'm',
    reason: 'Finite differences of an energy with 16 digits settle the pose to some 1e-9 rad at 0.3 m.',
  },
  'hang: least energy': {
    value: 1e-12,
    unit: 'J',
    reason: 'Rounding of sums of a few joules in double precision, times some hundred operations.',
  },
} as const satisfies Record<string, Tolerance>;

export const TOLERANCES: Readonly<Record<keyof typeof table, Tolerance>> = table;

/** The tolerance of that name, in the unit its row states. */
export const tolerance = (name: keyof typeof table): number => table[name].value;
