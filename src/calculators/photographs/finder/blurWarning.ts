import { html, nothing, type TemplateResult } from 'lit';
import { COVERAGE } from '../../../physics';
import { edit } from '../../../sheet/bench';
import { markUncertainty } from '../../../sheet/derived';
import type { Picture } from '../../../sheet/schema';
import { fixed, keepNumbers } from '../../shared/format';
import { inPicture } from '../edits';
import { blurOf, type PictureBlur } from './blur';

/** Edges this much wider along the smear than across it are motion; less is a lens or a texture. */
const LEAST_RATIO = 1.5;
/** A smear shorter than this is within what sharp pictures show too, pixels. */
const LEAST_WIDTH = 3;

/**
 * How far a mark may be off by the blur, pixels: it may have been set anywhere in the smear. null where the picture is
 * sharp enough for the ± its marks have.
 */
export function blurDamage(blur: PictureBlur | null, plusMinus: number): number | null {
  if (!blur || blur.ratio < LEAST_RATIO || blur.widthPx < LEAST_WIDTH) return null;
  const off = blur.widthPx / 2;
  return off > plusMinus ? off : null;
}

const ways = ['level', 'down to the right', 'upright', 'up to the right'] as const;

/** A direction of a picture in words, to the nearest eighth of a turn; rad, from level toward down on the right. */
export const wayOf = (direction: number): string =>
  ways[((Math.round((direction / Math.PI) * 4) % 4) + 4) % 4] ?? ways[0];

/** The ± that all marks of a picture have by default, pixels; null where it cannot be read. */
function usualPlusMinus(picture: Picture): number | null {
  const u = markUncertainty(picture, { plusMinus: '' });
  return u.ok ? COVERAGE * u.value : null;
}

/** Says that a picture moved while it was taken, how much that costs, and what to do; nothing where it is sharp. */
export function blurWarning(
  picture: Picture,
  name: string,
  pixelsPerMm: number | null,
): TemplateResult | typeof nothing {
  const blur = blurOf(picture.id);
  const usual = usualPlusMinus(picture);
  const off = usual === null ? null : blurDamage(blur, usual);
  if (!blur || off === null) return nothing;
  const onTruck = (pixels: number) =>
    pixelsPerMm === null ? '' : ` (${fixed(pixels / pixelsPerMm, 1)} mm on the truck)`;
  const plusMinus = String(Math.ceil(off));
  return html`<plumb-bracket
    kind="warning"
    class="blur"
    data-blur=${picture.id}
    title-text=${`Blurred by about ${keepNumbers(`${fixed(blur.widthPx, 0)} px`)}.`}
    >${keepNumbers(
      `Phone or truck moved, ${wayOf(blur.direction)} in the picture, so a mark may be up to ${fixed(off, 1)} px${onTruck(off)} off. Take it again with the self-timer, the phone resting against something, and more light, once the truck is still; or`,
    )}
    <button
      class="word-link"
      type="button"
      @click=${() =>
        edit(
          `± of the marks in ${name}`,
          inPicture(picture.id, (draft) => {
            Object.assign(draft.markPlusMinus, { text: plusMinus, kind: 'expanded' });
          }),
        )}
    >
      count its marks with ±&nbsp;${plusMinus}&nbsp;px</button
    >.</plumb-bracket
  >`;
}
