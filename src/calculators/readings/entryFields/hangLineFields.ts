import { html, nothing, type TemplateResult } from 'lit';
import { edit } from '../../../sheet/bench';
import type { HangLine } from '../../../sheet/schema';
import { hangingCautions } from '../../photographs/cautions';
import { VIEW_AXES } from '../givensUsed';
import { inReading } from '../edits';
import type { ReadingsParts } from '../parts';
import { readingGiven } from '../readingGiven';
import { choice } from './choices';
import { hookFields } from './hookFields';

/** A hang without a picture: view, hook, where the string ran, and how the suspension was. */
export function hangLineFields(parts: ReadingsParts, hang: HangLine): TemplateResult {
  const { state, fresh } = parts;
  const { id, view, by, suspension } = hang;
  const change = (label: string, recipe: (draft: HangLine) => void): void => {
    edit(label, inReading('hang line', id, recipe));
  };
  return html`
    ${hangingCautions(state.body, fresh.has(id))} ${hookFields(parts, hang)}
    ${choice(
      'Looked at',
      `view-${id}`,
      view,
      [
        ['side', 'From the side'],
        ['rear', 'From behind'],
        ['front', 'From the front'],
        ['top', 'From above'],
      ],
      (value) => change('View of a hang', (draft) => (draft.view = value)),
    )}
    ${choice(
      'The string’s line',
      `by-${id}`,
      by,
      [
        ['second point', 'Through a second point'],
        ['angle', 'From the truck’s slope'],
      ],
      (value) => change('How a hang was read', (draft) => (draft.by = value)),
    )}
    ${
      by === 'angle'
        ? readingGiven(state, hang, 'angle', SLOPE_NOTES[view])
        : html`${VIEW_AXES[view].map((axis) => readingGiven(state, hang, axis))}
            <p class="note">
              Let a plumb bob hang from the same hook and note where its string crosses the body far from the
              hook: that point’s place in the truck’s own measures, ahead of the rear axle, left of center,
              above ground as it stands.
            </p>`
    }
    ${choice(
      'Suspension while hung',
      `suspension-${id}`,
      suspension,
      [
        ['locked', 'Locked at ride height'],
        ['free', 'Free'],
      ],
      (value) => change('Suspension of a hang', (draft) => (draft.suspension = value)),
    )}
    ${
      suspension === 'free'
        ? html`${readingGiven(state, hang, 'frontDroop')} ${readingGiven(state, hang, 'rearDroop')}
            <p class="note">
              From ride height, along the truck’s own up and down. Each axle takes its share of the mass
              along, so the line passes through a center of gravity that hangs a little lower; this is worked
              back.
            </p>`
        : nothing
    }
  `;
}

const SLOPE_NOTES: Readonly<Record<HangLine['view'], string>> = {
  side: 'How far the nose hangs below level; above level is negative.',
  rear: 'How far the left side hangs below level; above level is negative.',
  front: 'How far the left side hangs below level; above level is negative.',
  top: 'The truck hangs on its side, right side down: how far the nose hangs below level. With the left side down, take a second point instead.',
};
