import { isSide } from '../../photo/views';
import { hangNumber } from '../../sheet/hangs';
import type { BuildState, MarkRole, Picture } from '../../sheet/schema';
import { hookOfRole } from '../../sheet/references';
import { FEWEST_BODY_MARKS, rolesOf, type RoleSlot } from './roleSlots';
import { standingOf } from './views';

/** What pictures and their points are called, and what is left to do in them. */
export { FEWEST_BODY_MARKS, hookName, rolesOf, type RoleSlot } from './roleSlots';
export { standingOf } from './views';

export const MOST_BODY_MARKS = 6;
export const BODY_MARK_KEYS = ['A', 'B', 'C', 'D', 'E', 'F'] as const;

/**
 * "Standing", "Standing, rear", "Hang 2" or, as long as nobody has said what it shows, "Picture 4": what a picture
 * is called in sentences, tables and figures.
 */
export function pictureName(state: BuildState, picture: Picture): string {
  if (picture.kind === 'hanging') return `Hang ${hangNumber(state, picture.id)}`;
  if (picture.kind === 'unsorted')
    return `Picture ${state.pictures.findIndex(({ id }) => id === picture.id) + 1}`;
  const main = standingOf(state)?.view;
  const name = ({ view }: Picture) => (isSide(view) && view === main ? 'Standing' : `Standing, ${view}`);
  const namesakes = state.pictures.filter(
    (other) => other.kind === 'standing' && name(other) === name(picture),
  );
  const number = namesakes.findIndex(({ id }) => id === picture.id) + 1;
  return number > 1 ? `${name(picture)} ${number}` : name(picture);
}

/** What tells a picture from its neighbors beside its number: the hook's name, else the reader's own name for it. */
export function pictureCaption(state: BuildState, picture: Picture): string {
  if (picture.kind !== 'hanging') return '';
  const hook = state.hooks.find(({ id }) => id === picture.hook);
  return hook?.name.trim() || picture.name.trim();
}

/** The first point still to place; null when all stand. */
export function nextRole(slots: readonly RoleSlot[]): RoleSlot | null {
  return slots.find(({ placed }) => !placed) ?? null;
}

/** A step left to do in a picture, in words, with the role it concerns where there is one. */
export interface OpenStep {
  readonly what: string;
  readonly role: MarkRole | null;
}

/** Axles droop only where there are axles, and only where nothing holds them up. */
const hangsFree = ({ body }: BuildState, { kind, suspension }: Picture): boolean =>
  body === 'truck' && kind === 'hanging' && suspension === 'free';

/** What a picture still needs before it counts. Empty: it is fully marked. */
export function openSteps(state: BuildState, picture: Picture): readonly OpenStep[] {
  const steps: OpenStep[] = [];
  if (picture.kind === 'unsorted')
    return [{ what: `whether it shows the ${state.body} standing or hanging`, role: null }];
  // With locked suspension the string alone gives the line; an axle that hangs free needs its hook.
  if (hangsFree(state, picture) && picture.hook === null)
    steps.push({ what: 'which hook the string is tied to', role: null });
  if (state.bodyMarks.length < FEWEST_BODY_MARKS)
    steps.push({
      what: state.bodyMarks.length === 0 ? 'two body marks to look for' : 'a second body mark to look for',
      role: null,
    });
  for (const slot of rolesOf(state, picture))
    if (!slot.placed && slot.need === 'needed')
      steps.push({ what: slot.name.charAt(0).toLowerCase() + slot.name.slice(1), role: slot.role });
  return steps;
}

/** How far the marking of a picture has come: its needed points, those placed, and the first one that is not. */
export interface MarkingProgress {
  readonly placed: number;
  readonly needed: number;
  readonly next: RoleSlot | null;
}

export function markingProgress(state: BuildState, picture: Picture): MarkingProgress {
  const needed = rolesOf(state, picture).filter(({ need }) => need === 'needed');
  return {
    placed: needed.filter(({ placed }) => placed).length,
    needed: needed.length,
    next: needed.find(({ placed }) => !placed) ?? null,
  };
}

/** The picture to go on with: the standing one first, since the others are laid over it; null where all are marked. */
export const firstToMark = (state: BuildState): Picture | null =>
  state.pictures
    .toSorted((a, b) => Number(b.kind === 'standing') - Number(a.kind === 'standing'))
    .find((picture) => picture.counted && openSteps(state, picture).length > 0) ?? null;

/**
 * A slip that leaves marks complete but wrong: a picture said to be seen from one side whose hubs lie the other
 * way round. Only where both hubs are marked; null when all is well.
 */
export function mirrored(picture: Picture): boolean {
  const at = (role: MarkRole) => picture.marks.find((mark) => mark.role === role);
  const rear = at('rear hub');
  const front = at('front hub');
  if (picture.kind !== 'standing' || !isSide(picture.view) || !rear || !front) return false;
  return picture.view === 'right' ? front.x < rear.x : front.x > rear.x;
}

/** The feet of the near tires marked the other way round: seen from the rear the truck's left is on the left. */
export function feetSwapped({ kind, view, marks }: Picture): boolean {
  const left = marks.find(({ role }) => role === 'ground left');
  const right = marks.find(({ role }) => role === 'ground right');
  if (kind !== 'standing' || !left || !right) return false;
  return view === 'rear' ? left.x > right.x : view === 'front' && left.x < right.x;
}

/** What a mark with this role is called in this picture; the role itself where the picture no longer asks for it. */
export function roleName(state: BuildState, picture: Picture, role: string): string {
  const slot = rolesOf(state, picture).find((candidate) => candidate.role === role);
  if (slot) return slot.name;
  const hook = hookOfRole(role);
  if (hook !== null) return 'Hook';
  return role.charAt(0).toUpperCase() + role.slice(1);
}
