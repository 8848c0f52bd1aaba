import { roundStep } from './ruler';
import { textSpan } from './textFit';

/** A true scale along a chart: equal steps, from one numbered tick to another. */
export interface ValueScale {
  /** Values at the ends; both carry a number. */
  readonly from: number;
  readonly to: number;
  /** px of the ends, inside the room given by half of their numbers. */
  readonly left: number;
  readonly right: number;
  /** Values with a number, in order, and the number's text. */
  readonly ticks: readonly { readonly value: number; readonly text: string }[];
  /** Spacing of the ticks, and of the grid between them. */
  readonly step: number;
  readonly minor: number;
  /** px of a value; beyond the ends it goes on evenly. */
  readonly x: (value: number) => number;
}

/** Font size of the numbers, px, and the least gap between two of them. */
export const TICK_SIZE = 15;
const TICK_GAP = 14;

/** Values this near each other, as a share of their size, have no scale of their own. */
const EQUAL = 1e-3;
/** Room for half a mark that stands at an end, px. */
const MARK_ROOM = 10;

/**
 * The tightest scale over [low, high] whose ends are ticks and whose numbers (printed by `text` to the places the step
 * needs) neither touch nor reach out of the room from `start` to `stop`, px. Values in the chart's unit; low ≤ high,
 * start < stop; where the two values are equal the scale goes one unit either way.
 */
export function valueScale(
  low: number,
  high: number,
  start: number,
  stop: number,
  text: (value: number, decimals: number) => string,
): ValueScale {
  const opened = high - low > EQUAL * Math.max(1, Math.abs(low), Math.abs(high));
  const [least, most] = opened ? [low, high] : [low - 1, high + 1];
  for (let step = roundStep((most - least) / 12); ; step = roundStep(step * 1.5)) {
    const first = Math.floor(least / step + 1e-9);
    const last = Math.ceil(most / step - 1e-9);
    const decimals = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
    const ticks = Array.from({ length: last - first + 1 }, (_, i) => {
      // A multiple of the step carries the step's rounding; the places it is printed to do not.
      const value = Number(((first + i) * step).toFixed(decimals));
      return { value, text: text(value, decimals) };
    });
    const spans = ticks.map((tick) => textSpan(tick.text, TICK_SIZE));
    const left = start + Math.max(MARK_ROOM, (spans[0] ?? 0) / 2);
    const right = stop - Math.max(MARK_ROOM, (spans.at(-1) ?? 0) / 2);
    const spacing = (right - left) / (last - first);
    // Zero is a tick of every scale that has it inside: such a one has two steps at least.
    const fewest = first < 0 && last > 0 ? 2 : 1;
    if (spacing < Math.max(...spans) + TICK_GAP && last - first > fewest) continue;
    const from = first * step;
    const to = last * step;
    const perUnit = (right - left) / (to - from);
    return {
      from,
      to,
      left,
      right,
      ticks,
      step,
      minor: step / (leadingDigit(step) === 2 ? 4 : 5),
      x: (value) => left + (value - from) * perUnit,
    };
  }
}

const leadingDigit = (step: number): number => Math.round(step / 10 ** Math.floor(Math.log10(step) + 1e-9));

/** Whether a value stands on the scale, ends included. */
export const onScale = ({ from, to }: ValueScale, value: number): boolean => value >= from && value <= to;
