import { html, nothing, type TemplateResult } from 'lit';
import { edit } from '../../../sheet/bench';
import type { AxleLift } from '../../../sheet/schema';
import '../../shared/warning';
import { liftCautions } from '../cautions';
import { inReading } from '../edits';
import type { ReadingsParts } from '../parts';
import { readingGiven } from '../readingGiven';
import { choice } from './choices';

/** An axle lift: which axle, how the lift was measured, the scale that was read, and how the suspension was. */
export function axleLiftFields({ state, fresh }: ReadingsParts, lift: AxleLift): TemplateResult {
  const { id } = lift;
  const change = (label: string, recipe: (draft: AxleLift) => void): void => {
    edit(label, inReading('axle lift', id, recipe));
  };
  const raised = lift.raised === 'front axle' ? 'front' : 'rear';
  return html`
    ${liftCautions(fresh.has(id))}
    ${choice(
      'Raised',
      `raised-${id}`,
      lift.raised,
      [
        ['front axle', 'Front, nose up'],
        ['rear axle', 'Rear, tail up'],
      ],
      (value) =>
        change('Raised axle of a lift', (draft) => {
          // The usual scale stands under the axle that stays down.
          if (draft.scaleUnder !== draft.raised) draft.scaleUnder = draft.raised;
          draft.raised = value;
        }),
    )}
    ${choice(
      'Lift measured',
      `by-${id}`,
      lift.by,
      [
        ['height', 'As a height'],
        ['angle', 'As a slope'],
      ],
      (value) => change('How a lift was measured', (draft) => (draft.by = value)),
    )}
    ${
      lift.by === 'angle'
        ? readingGiven(
            state,
            lift,
            'angle',
            'Of the truck’s own level line: level or phone on the chassis, zeroed while it stood level.',
          )
        : readingGiven(
            state,
            lift,
            'rise',
            `How far the ${raised} hubs rose above where they stood; not the height of the block, and not from the ground.`,
          )
    }
    ${choice(
      'Scale under',
      `scale-${id}`,
      lift.scaleUnder,
      [
        ['front axle', 'Front wheels'],
        ['rear axle', 'Rear wheels'],
      ],
      (value) => change('Scale of a lift', (draft) => (draft.scaleUnder = value)),
    )}
    ${readingGiven(
      state,
      lift,
      'load',
      'While the axle is raised. Wheels free to roll, so that the scale feels no push sideways.',
    )}
    ${choice(
      'Suspension',
      `suspension-${id}`,
      lift.suspension,
      [
        ['locked', 'Locked'],
        ['free', 'Free'],
      ],
      (value) => change('Suspension of a lift', (draft) => (draft.suspension = value)),
    )}
    ${
      lift.suspension === 'free'
        ? html`<plumb-bracket kind="remark" title-text="Kept, but not counted."
            >On free springs the body sinks at the low end and leans back further than the hubs say, so the
            scale there reads too much. That has put heights 17 % off and more. Lock the suspension at ride
            height, with struts or ties, and lift again.</plumb-bracket
          >`
        : nothing
    }
  `;
}
