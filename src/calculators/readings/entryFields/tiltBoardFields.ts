import { html, nothing, type TemplateResult } from 'lit';
import { edit } from '../../../sheet/bench';
import type { TiltBoard } from '../../../sheet/schema';
import '../../shared/warning';
import { boardCautions } from '../cautions';
import { inReading } from '../edits';
import type { ReadingsParts } from '../parts';
import { readingGiven } from '../readingGiven';
import { choice, longChoice } from './choices';

/** A board's slope: which way it was raised, what happened there, and the slope. */
export function tiltBoardFields({ state, fresh }: ReadingsParts, board: TiltBoard): TemplateResult {
  const { id, event } = board;
  const change = (label: string, recipe: (draft: TiltBoard) => void): void => {
    edit(label, inReading('tilt board', id, recipe));
  };
  return html`
    ${boardCautions(fresh.has(id))}
    ${choice(
      'Downhill',
      `toward-${id}`,
      board.toward,
      [
        ['left', 'Left side'],
        ['right', 'Right side'],
        ['nose up', 'Tail'],
        ['nose down', 'Nose'],
      ],
      (value) => change('Side of a tilt board', (draft) => (draft.toward = value)),
    )}
    ${longChoice('What happened at this slope', `event-${id}`, event, EVENTS, (value) =>
      change('Event on a tilt board', (draft) => (draft.event = value)),
    )}
    ${readingGiven(state, board, 'angle', 'Of the board, read with the level laid on it, square to its hinge.')}
    ${
      event === 'tips, suspension locked'
        ? nothing
        : html`<plumb-bracket kind="remark" title-text=${OTHER_THINGS[event].title}
            >${OTHER_THINGS[event].why} It stays on the sheet as what it is and is not counted.</plumb-bracket
          >`
    }
  `;
}

const EVENTS: readonly (readonly [TiltBoard['event'], string])[] = [
  ['tips, suspension locked', 'It tips, suspension locked'],
  ['tips, suspension free', 'It tips, on its springs'],
  ['first wheel lifts', 'The first wheel lifts, no more'],
  ['slides', 'It slides before it tips'],
];

/** Slopes that are worth knowing and tell no height. */
const OTHER_THINGS: Readonly<
  Record<
    Exclude<TiltBoard['event'], 'tips, suspension locked'>,
    { readonly title: string; readonly why: string }
  >
> = {
  'tips, suspension free': {
    title: 'This tells what the truck does, not where its center of gravity lies.',
    why: 'Springs unload and lift the body, so it goes over earlier, usually by 1 to 4°. Taken for a locked tip it would put the center of gravity 2 to 50 mm too high.',
  },
  'first wheel lifts': {
    title: 'A first wheel is not the tip.',
    why: 'It comes up as much as 8° before the truck goes over, even locked, and how early depends on how the frame and tires share the load, not on the height alone.',
  },
  slides: {
    title: 'This tells the grip, not the height.',
    why: 'A low lip at the downhill tires stops the slide; then raise the board on until it tips.',
  },
};
