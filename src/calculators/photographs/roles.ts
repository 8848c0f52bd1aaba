import { hangNumber } from '../../sheet/hangs';
import type { BuildState, Hook, MarkRole, Picture } from '../../sheet/schema';
import { hookOfRole } from '../../sheet/references';

/** One point to mark in a picture: what it is called, where to put it, and how much hangs on it. */
export interface RoleSlot {
  readonly role: MarkRole;
  /** Shown at the mark: a letter, or a word or two. */
  readonly label: string;
  /** Said in lists and to screen readers. */
  readonly name: string;
  /** Where exactly, for the one in hand. */
  readonly where: string;
  /** 'needed': no line without it. 'helps': it lowers the ± or checks another mark. */
  readonly need: 'needed' | 'helps';
  readonly placed: boolean;
}

/** Fewest body marks that register one picture on another. */
export const FEWEST_BODY_MARKS = 2;
export const MOST_BODY_MARKS = 6;
export const BODY_MARK_KEYS = ['A', 'B', 'C', 'D', 'E', 'F'] as const;

/** "Hook 2" or the reader's own name for it. */
export function hookName(state: BuildState, hook: Hook): string {
  const own = hook.name.trim();
  return own === '' ? `Hook ${state.hooks.indexOf(hook) + 1}` : own;
}

/** "Standing" or "Hang 2": what a picture is called in sentences, tables and figures. */
export const pictureName = (state: BuildState, picture: Picture): string =>
  picture.kind === 'standing' ? 'Standing' : `Hang ${hangNumber(state, picture.id)}`;

/** What tells a picture from its neighbors beside its number: the hook's name, else the reader's own name for it. */
export function pictureCaption(state: BuildState, picture: Picture): string {
  if (picture.kind === 'standing') return '';
  const hook = state.hooks.find(({ id }) => id === picture.hook);
  return hook?.name.trim() || picture.name.trim();
}

export const standingOf = (state: BuildState): Picture | null =>
  state.pictures.find((picture) => picture.kind === 'standing' && picture.counted) ??
  state.pictures.find((picture) => picture.kind === 'standing') ??
  null;

const bodyMarkName = (key: string, name: string): string =>
  name.trim() === '' ? `Mark ${key}` : `Mark ${key}, ${name.trim()}`;

/**
 * The points to mark in a picture, in the order in which they are asked for. A picture's hubs are asked for when
 * hanging only with free suspension, since with locked suspension they tell nothing the body marks do not.
 */
export function rolesOf(state: BuildState, picture: Picture): readonly RoleSlot[] {
  const placed = new Set(picture.marks.map((mark) => mark.role));
  const slots: RoleSlot[] = [];
  const add = (
    role: MarkRole,
    label: string,
    name: string,
    where: string,
    need: RoleSlot['need'] = 'needed',
  ) => slots.push({ role, label, name, where, need, placed: placed.has(role) });
  const hub = (role: 'rear hub' | 'front hub') =>
    add(
      role,
      role,
      role === 'rear hub' ? 'Rear hub' : 'Front hub',
      'The center of the wheel, on the axle’s own axis.',
    );

  if (picture.kind === 'standing') {
    hub('rear hub');
    hub('front hub');
    if (state.scaleFrom === 'two points') {
      add('scale 1', 'scale 1', 'Scale, first point', 'One end of the distance you measured.');
      add('scale 2', 'scale 2', 'Scale, second point', 'The other end of the distance you measured.');
    }
    const ruled = (text: string) => text.trim() !== '';
    const { rearTireRadius, frontTireRadius } = state.dimensions;
    const ground = 'Where the middle of this tire meets the ground.';
    add('ground rear', 'ground', 'Ground, rear', ground, ruled(rearTireRadius.text) ? 'helps' : 'needed');
    add('ground front', 'ground', 'Ground, front', ground, ruled(frontTireRadius.text) ? 'helps' : 'needed');
  } else {
    add(
      'string upper',
      'string, up',
      'String, upper end',
      'On the middle of the string, as high as you can see it.',
    );
    add(
      'string lower',
      'string, low',
      'String, lower end',
      'On the middle of the string, just above the hook.',
    );
  }
  for (const { key, name } of state.bodyMarks)
    add(`mark ${key}`, key, bodyMarkName(key, name), 'The same sharp corner of the body in every picture.');
  for (const hook of state.hooks) {
    if (picture.kind === 'hanging' ? picture.hook !== hook.id : onlyByRuler(state, hook)) continue;
    const read = picture.kind === 'standing' && hook.source === 'standing picture';
    add(
      `hook ${hook.id}`,
      'hook',
      picture.kind === 'standing' ? `Hook: ${hookName(state, hook)}` : 'Hook',
      'Where the string pulls on the truck.',
      read ? 'needed' : 'helps',
    );
  }
  if (picture.kind === 'hanging' && picture.suspension === 'free') {
    hub('rear hub');
    hub('front hub');
  }
  // A press places the first point that is not placed yet, so the list stands in the order of asking.
  return [...slots.filter(({ need }) => need === 'needed'), ...slots.filter(({ need }) => need === 'helps')];
}

/** A hook that hangs measured without a picture use, and no picture does: it need not be seen in one. */
const onlyByRuler = ({ pictures, readings }: BuildState, { id, source }: Hook): boolean =>
  source === 'ruler' &&
  readings.some((reading) => reading.kind === 'hang line' && reading.hook === id) &&
  !pictures.some(({ hook }) => hook === id);

/** The first point still to place; null when all stand. */
export function nextRole(slots: readonly RoleSlot[]): RoleSlot | null {
  return slots.find(({ placed }) => !placed) ?? null;
}

/** A step left to do in a picture, in words, with the role it concerns where there is one. */
export interface OpenStep {
  readonly what: string;
  readonly role: MarkRole | null;
}

/** What a picture still needs before it counts. Empty: it is fully marked. */
export function openSteps(state: BuildState, picture: Picture): readonly OpenStep[] {
  const steps: OpenStep[] = [];
  if (picture.kind === 'hanging' && picture.hook === null)
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

/**
 * A slip that leaves marks complete but wrong: a picture said to be seen from one side whose hubs lie the other
 * way round. Only where both hubs are marked; null when all is well.
 */
export function mirrored(picture: Picture): boolean {
  const at = (role: MarkRole) => picture.marks.find((mark) => mark.role === role);
  const rear = at('rear hub');
  const front = at('front hub');
  if (picture.kind !== 'standing' || !rear || !front) return false;
  return picture.view === 'right' ? front.x < rear.x : front.x > rear.x;
}

/** What a mark with this role is called in this picture; the role itself where the picture no longer asks for it. */
export function roleName(state: BuildState, picture: Picture, role: string): string {
  const slot = rolesOf(state, picture).find((candidate) => candidate.role === role);
  if (slot) return slot.name;
  const hook = hookOfRole(role);
  if (hook !== null) return 'Hook';
  return role.charAt(0).toUpperCase() + role.slice(1);
}
