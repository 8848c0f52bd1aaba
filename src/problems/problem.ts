import type { Dimension } from '../sheet/dimensions';
import type { FigurePlan, FigurePlace } from './figurePlan';
import type { Relation, Words } from './words';

/**
 * Problems as data: what is asked, the key, how near is near enough and why, the slips that are recognized, hints and
 * the worked solution. A kind makes one from numbers; numbers come from a seed (random.ts) or from a published example.
 */

export const FORMS = ['numeric', 'choose', 'place', 'slip', 'faded'] as const;
export type Form = (typeof FORMS)[number];

/** How far an answer may be from the key. */
export interface Nearness {
  /** Share of the key, 0.02 for 2 %; `least` holds where that is smaller. */
  readonly share: number;
  /** In the unit of the key. */
  readonly least: number;
  /** Why so much: a sentence for the reader. */
  readonly reason: string;
}

/** A number that is asked for. The key is worked out from the numbers as shown. */
export interface Asked {
  /** What the field is called: "Ahead of the rear axle". */
  readonly label: string;
  readonly dimension: Dimension;
  /** Unit of key, slips and nearness; the reader may answer in any other of the dimension. */
  readonly unit: string;
  readonly key: number;
  /** Decimal places in which the key is shown. */
  readonly decimals: number;
  readonly nearness: Nearness;
  readonly slips: readonly Slip[];
  /** What would have shown that a wrong answer is wrong, whatever the slip. */
  readonly check: Words;
}

/** A recognized slip: a wrong way whose number is known. */
export interface Slip {
  /** Stable, within its kind: "axles-swapped". */
  readonly id: string;
  /** What was done, as the end of “That is what comes out when …”. */
  readonly name: string;
  /** The number it leads to, in the unit of the key. */
  readonly answer: number;
  /** The reader's own number traced back, with numbers. */
  readonly trace: Words;
  /** Why it is wrong. */
  readonly reason: Words;
  /** What to do next. */
  readonly next: Words;
}

/** One step of a worked solution. */
export interface SolutionStep {
  readonly sentence: Words;
  readonly symbols?: Relation;
  /** The same with the problem's numbers, ending in the step's value where it has one. */
  readonly numbers?: Relation;
  /** What the step works out; can be left out of a faded example. */
  readonly value?: Asked;
}

interface ProblemText {
  readonly prompt: Words;
  readonly figure?: FigurePlan;
  /** Stepped: each says more than the one before. */
  readonly hints: readonly [Words, Words];
  /** Ends in the key. */
  readonly solution: readonly SolutionStep[];
  /** The published example the numbers were taken from, if they were. */
  readonly source?: string;
}

export interface NumericProblem extends ProblemText {
  readonly form: 'numeric';
  readonly asked: Asked;
}

/** An answer or a principle to choose, and what is said of it when chosen. */
export interface Choice {
  readonly id: string;
  readonly words: Words;
  readonly right: boolean;
  readonly why: Words;
}

/** Choose what happens, then say which principle decides it. Exactly one of each list is right. */
export interface ChooseProblem extends ProblemText {
  readonly form: 'choose';
  readonly options: readonly Choice[];
  readonly principles: readonly Choice[];
}

/** Place a point, or a line by two of its points, in a figure. Lengths in the figure's millimeters. */
export interface PlaceProblem extends ProblemText {
  readonly form: 'place';
  readonly figure: FigurePlan;
  readonly what: 'point' | 'line';
  readonly label: string;
  /** A point; or a line through it at `angle` from x, turning up (degrees). */
  readonly key: FigurePlace & { readonly angle?: number };
  /** Largest distance of a point from the key, or of a line from two ends of the figure that matter (mm). */
  readonly nearness: { readonly distance: number; readonly degrees: number; readonly reason: string };
  readonly slips: readonly (Omit<Slip, 'answer'> & {
    readonly place: FigurePlace & { readonly angle?: number };
  })[];
  readonly check: Words;
}

/** A worked solution with one wrong step: find it, say what went wrong, put it right. */
export interface SlipProblem extends ProblemText {
  readonly form: 'slip';
  /** What stands there, wrong step and what follows from it included. */
  readonly shownSteps: readonly SolutionStep[];
  /** Index of the first wrong step. */
  readonly wrongStep: number;
  /** What is said when another step is accused: why that one is sound. By index; of the wrong step ''. */
  readonly soundBecause: readonly Words[];
  readonly whatWentWrong: readonly Choice[];
  readonly asked: Asked;
}

/** A worked example with a step left out. */
export interface FadedProblem extends ProblemText {
  readonly form: 'faded';
  /** Steps whose value the reader fills in, by index into `solution`; each has a value. */
  readonly blanks: readonly number[];
}

export type Problem = NumericProblem | ChooseProblem | PlaceProblem | SlipProblem | FadedProblem;

/** Numbers in [0, 1), the same for the same seed for ever. */
export type Uniform = () => number;

/** Makes problems of one kind. `id` and `version` never change their meaning: a change of numbers is a new version. */
export interface ProblemKind<Numbers = unknown> {
  readonly id: string;
  readonly version: number;
  readonly chapter: 1 | 2 | 3;
  readonly form: Form;
  /** What it is about, as a heading. */
  readonly title: string;
  /** Believable numbers, rounded as they are shown; null where the draw is degenerate or a trick. */
  readonly draw: (uniform: Uniform) => Numbers | null;
  readonly problem: (numbers: Numbers) => Problem;
}
