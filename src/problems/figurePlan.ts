/**
 * A problem's figure as data, in millimeters of the thing drawn: x to the right, y up. src/figures draws it. Given sizes
 * are blue, worked-out ones ink; the reader's own mark is drawn by the page.
 */

export interface FigurePlace {
  readonly x: number;
  readonly y: number;
}

export type FigureTone = 'given' | 'worked' | 'quiet';

export type FigureItem =
  /** A closed outline: a card, a block, a beam. */
  | { readonly kind: 'outline'; readonly corners: readonly FigurePlace[]; readonly quiet?: boolean }
  /** The demo truck from its right side, its rear contact at `at`, standing level, `wheelbase` long. */
  | { readonly kind: 'truck'; readonly at: FigurePlace; readonly wheelbase: number }
  | { readonly kind: 'ground'; readonly from: FigurePlace; readonly to: FigurePlace }
  | { readonly kind: 'string'; readonly from: FigurePlace; readonly to: FigurePlace }
  | { readonly kind: 'hook'; readonly at: FigurePlace; readonly label?: string }
  | { readonly kind: 'pivot'; readonly at: FigurePlace; readonly label?: string }
  | { readonly kind: 'scale'; readonly at: FigurePlace; readonly label: string }
  | { readonly kind: 'load'; readonly at: FigurePlace; readonly label: string }
  /** Quartered circle. */
  | { readonly kind: 'cg'; readonly at: FigurePlace }
  | { readonly kind: 'dot'; readonly at: FigurePlace; readonly label?: string }
  /** A chain line without ends through `at`, `angle` degrees from x. */
  | { readonly kind: 'line'; readonly at: FigurePlace; readonly angle: number; readonly label?: string }
  /** An arrow from `at`, `length` long, `angle` degrees from x. */
  | {
      readonly kind: 'force';
      readonly at: FigurePlace;
      readonly angle: number;
      readonly length: number;
      readonly label: string;
      readonly tone: FigureTone;
    }
  /** A dimension line, moved `off` sideways (to the left of the way from `from` to `to`). */
  | {
      readonly kind: 'dimension';
      readonly from: FigurePlace;
      readonly to: FigurePlace;
      readonly off: number;
      readonly label: string;
      readonly tone: FigureTone;
    }
  | {
      readonly kind: 'angle';
      readonly at: FigurePlace;
      readonly from: number;
      readonly to: number;
      readonly radius: number;
      readonly label: string;
      readonly tone: FigureTone;
    };

export interface FigurePlan {
  /** What the figure says, for those who do not see it. */
  readonly alt: string;
  readonly from: FigurePlace;
  readonly to: FigurePlace;
  /** Side of one square of its grid (mm). */
  readonly square: number;
  readonly items: readonly FigureItem[];
}
