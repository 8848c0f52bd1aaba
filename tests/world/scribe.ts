import type { Random } from '../demo/world/random';
import { cholesky, lowerTimes } from './algebra';
import type { Point, Shown } from './truth';
import { Truth, at } from './truth';

/** A number to be read, with its standard uncertainty. */
export interface ToRead {
  readonly id: string;
  readonly u: number;
}

/** A number as read. */
export interface Taken {
  readonly value: number;
  readonly u: number;
  readonly law?: 'rectangular';
}

export interface ErrorLaws {
  /** 'normal': every error; 'stated': some numbers have hard limits and say so; 'none': every number is exact. */
  readonly errors: 'normal' | 'stated' | 'none';
}

/** One number in so many is read between hard limits where laws differ. */
const HARD_LIMITS = 0.25;

/** Writes down what instruments show of a truth, each number with an error drawn by its own law. */
export class Scribe {
  readonly truth = new Truth();
  readonly shown: Shown[] = [];

  constructor(
    readonly draw: Random,
    readonly laws: ErrorLaws,
  ) {}

  law(): 'rectangular' | undefined {
    return this.laws.errors === 'stated' && this.draw.unit() < HARD_LIMITS ? 'rectangular' : undefined;
  }

  /** An error by its law. */
  error(u: number, law: 'rectangular' | undefined): number {
    if (this.laws.errors === 'none') return 0;
    return u * (law === 'rectangular' ? Math.sqrt(3) * (2 * this.draw.unit() - 1) : this.draw.normal());
  }

  /** Numbers with errors of their own. */
  read(
    numbers: readonly ToRead[],
    depends: readonly number[],
    show: (point: Point) => readonly number[],
  ): Taken[] {
    const exact = show(this.truth.point());
    this.shown.push({
      numbers: numbers.map(({ id }, place) => ({ id, place })),
      depends,
      show,
      covariance: numbers.map(({ u }, i) => numbers.map((_, j) => (i === j ? u * u : 0))),
    });
    return numbers.map(({ u }, i) => {
      const law = this.law();
      return { value: (exact[i] ?? NaN) + this.error(u, law), u, ...(law && { law }) };
    });
  }

  /** Numbers that share errors: the errors, in the order of the covariance. */
  readTogether(shown: Shown): number[] {
    this.shown.push(shown);
    const lower = cholesky(shown.covariance);
    if (!lower) throw new RangeError('A covariance of errors is not positive definite.');
    return lowerTimes(
      lower,
      shown.covariance.map(() => this.error(1, undefined)),
    );
  }

  /** A truth that was drawn from what is given of it: its place. */
  drawnFrom(
    name: string,
    given: { readonly value: number; readonly u: number; readonly law?: 'rectangular' },
    counts = true,
  ): number {
    const index = this.truth.add(name, given.value - this.error(given.u, given.law));
    if (counts) this.counts(name, index, given.u);
    return index;
  }

  /** Adds a truth's own number to what is shown. */
  counts(id: string, index: number, u: number): void {
    this.shown.push({
      numbers: [{ id, place: 0 }],
      depends: [index],
      show: (point) => [at(point, index)],
      covariance: [[u * u]],
    });
  }
}

/** A covariance with the given standard deviations, its errors in part shared: two common causes beside their own. */
export const sharedCovariance = (draw: Random, u: readonly number[]): number[][] => {
  const causes = u.map(() => [draw.between(-0.8, 0.8), draw.between(-0.5, 0.5)] as const);
  const raw = (i: number, j: number): number => {
    const [a, b] = [causes[i], causes[j]];
    return (a && b ? a[0] * b[0] + a[1] * b[1] : 0) + (i === j ? 0.5 : 0);
  };
  return u.map((ui, i) => u.map((uj, j) => (ui * uj * raw(i, j)) / Math.sqrt(raw(i, i) * raw(j, j))));
};
