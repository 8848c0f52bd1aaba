import { isSide } from '../../photo/views';
import type { BuildState, Picture, View } from '../../sheet/schema';

/** The sides a picture may be taken from, and which pictures belong together by it. */

/** Both show ahead and up, or both the very same side: a hook read in one holds in the other. */
export const alike = (one: View, other: View): boolean => one === other || (isSide(one) && isSide(other));

const countedFirst = (pictures: readonly Picture[]): Picture | null =>
  pictures.find(({ counted }) => counted) ?? pictures[0] ?? null;

/** The standing side picture, on which the answer is drawn; a counted one where there are several. */
export const standingOf = (state: BuildState): Picture | null =>
  countedFirst(state.pictures.filter(({ kind, view }) => kind === 'standing' && isSide(view)));

/** The standing picture that the hangs of a view are laid over. Left and right have one each. */
export const standingOfView = (state: BuildState, view: View): Picture | null =>
  countedFirst(state.pictures.filter((picture) => picture.kind === 'standing' && picture.view === view));

/** "the right side", "the rear": where the camera stood, or hung. */
export const viewWords = (view: View): string => (isSide(view) ? `the ${view} side` : `the ${view}`);

/** Choices of a view as the reader finds them. */
export const VIEW_CHOICES: readonly (readonly [View, string])[] = [
  ['left', 'left side'],
  ['right', 'right side'],
  ['rear', 'rear'],
  ['front', 'front'],
  ['top', 'top'],
];

/** How the camera stands for a view, and what gives its scale. */
export const VIEW_NOTES: Readonly<Record<View, string>> = {
  left: 'From the left side the nose points left, standing. The wheelbase gives the scale.',
  right: 'From the right side the nose points right, standing. The wheelbase gives the scale.',
  rear: 'Camera behind the truck, at hub height, square to it. Scale and level come from the rear track.',
  front: 'Camera before the truck, at hub height, square to it. Scale and level come from the front track.',
  top: 'Camera straight above the truck’s middle. The scale comes from wheelbase and tracks; hang the truck on its side.',
};
