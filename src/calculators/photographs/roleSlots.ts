import { isSide } from '../../photo/views';
import type { BuildState, Hook, MarkRole, Picture } from '../../sheet/schema';
import { alike, standingOf } from './views';

/** One point to mark in a picture: what it is called, where to put it, and how much hangs on it. */
export interface RoleSlot {
  readonly role: MarkRole;
  /** Shown at the mark: a letter, or a word or two. */
  readonly label: string;
  /** Said in lists and to screen readers. */
  readonly name: string;
  /** Where exactly, for the one in hand. */
  readonly where: string;
  /** 'needed': no line without it. 'helps': it lowers the ±, checks another mark, or gives the tip angles. */
  readonly need: 'needed' | 'helps';
  readonly placed: boolean;
}

type Point = Omit<RoleSlot, 'placed'>;
type Need = RoleSlot['need'];

/** Fewest body marks that register one picture on another. */
export const FEWEST_BODY_MARKS = 2;
/** Fewest tires that give a picture from the top its scale and its direction, with one to check. */
const FEWEST_TIRES = 3;

/** "Hook 2" or the reader's own name for it. */
export function hookName(state: BuildState, hook: Hook): string {
  const own = hook.name.trim();
  return own === '' ? `Hook ${state.hooks.indexOf(hook) + 1}` : own;
}

/**
 * The points to mark in a picture, in the order in which they are asked for; none while nobody has said what it
 * shows. A picture's hubs are asked for when hanging only with free suspension, since with locked suspension they
 * tell nothing the body marks do not, or where no standing picture shows them.
 */
export function rolesOf(state: BuildState, picture: Picture): readonly RoleSlot[] {
  const placed = new Set(picture.marks.map((mark) => mark.role));
  const slots = pointsOf(state, picture).map((point) => ({ ...point, placed: placed.has(point.role) }));
  // A press places the first point that is not placed yet, so the list stands in the order of asking.
  return [...slots.filter(({ need }) => need === 'needed'), ...slots.filter(({ need }) => need === 'helps')];
}

function pointsOf(state: BuildState, picture: Picture): readonly Point[] {
  if (picture.kind === 'unsorted') return [];
  const marks = bodyMarkPoints(state, picture);
  if (state.body === 'object') {
    const [scale, base] = [scalePoints(objectScaleNeed(state, picture)), BASE];
    return picture.kind === 'standing'
      ? [...scale, ...marks, ...base]
      : [...STRING, ...marks, ...scale, ...base];
  }
  if (picture.kind === 'standing')
    return [...standingPoints(state, picture), ...marks, ...hookPoints(state, picture)];
  return [
    ...STRING,
    ...marks,
    ...hookOfHang(state, picture),
    ...hubsOfHang(state, picture),
    ...scaleOfHang(state),
  ];
}

const STRING: readonly Point[] = [
  {
    role: 'string upper',
    label: 'string, up',
    name: 'String, upper end',
    where: 'On the middle of the string it hangs from, as high as you can see it.',
    need: 'needed',
  },
  {
    role: 'string lower',
    label: 'string, low',
    name: 'String, lower end',
    where: 'On the middle of the string, just above the hook.',
    need: 'needed',
  },
];

const BASE: readonly Point[] = [
  {
    role: 'base 1',
    label: 'base 1',
    name: 'Base, first point',
    where: 'An outermost point it stands on, where it would tip over.',
    need: 'helps',
  },
  {
    role: 'base 2',
    label: 'base 2',
    name: 'Base, second point',
    where: 'The outermost point it stands on, on the other side.',
    need: 'helps',
  },
];

const hubPoints = (need: Need): readonly Point[] =>
  (['rear hub', 'front hub'] as const).map((role) => ({
    role,
    label: role,
    name: role === 'rear hub' ? 'Rear hub' : 'Front hub',
    where: 'The center of the wheel, on the axle’s own axis.',
    need,
  }));

function scalePoints(need: Need, own = true): readonly Point[] {
  return [
    {
      role: 'scale 1',
      label: 'scale 1',
      name: 'Scale, first point',
      where: own
        ? 'One end of the distance you measured. The object’s own axes begin here.'
        : 'One end of the distance you measured.',
      need,
    },
    {
      role: 'scale 2',
      label: 'scale 2',
      name: 'Scale, second point',
      where: own
        ? 'The other end of the distance you measured. The first axis runs toward it.'
        : 'The other end of the distance you measured.',
      need,
    },
  ];
}

/** The scale of an object is needed in one picture: where it was begun, else in the first. */
function objectScaleNeed({ pictures }: BuildState, picture: Picture): Need {
  const sorted = pictures.filter(({ kind }) => kind !== 'unsorted');
  const begun = sorted.find(({ marks }) => marks.some(({ role }) => role.startsWith('scale ')));
  return (begun ?? sorted[0])?.id === picture.id ? 'needed' : 'helps';
}

function standingPoints(state: BuildState, { view, marks }: Picture): readonly Point[] {
  if (view === 'top') return tirePoints(marks.map(({ role }) => role));
  if (!isSide(view))
    return ['left', 'right'].map((side) => footPoint(view, side === 'left' ? 'left' : 'right'));
  const { rearTireRadius, frontTireRadius } = state.dimensions;
  const ground = (role: 'ground rear' | 'ground front', radius: string): Point => ({
    role,
    label: 'ground',
    name: role === 'ground rear' ? 'Ground, rear' : 'Ground, front',
    where: 'Where the middle of this tire meets the ground.',
    need: radius.trim() === '' ? 'needed' : 'helps',
  });
  return [
    ...hubPoints('needed'),
    ...(state.scaleFrom === 'two points' ? scalePoints('needed', false) : []),
    ground('ground rear', rearTireRadius.text),
    ground('ground front', frontTireRadius.text),
  ];
}

function footPoint(view: Picture['view'], side: 'left' | 'right'): Point {
  const inPicture = (view === 'rear') === (side === 'left') ? 'left' : 'right';
  return {
    role: side === 'left' ? 'ground left' : 'ground right',
    label: side === 'left' ? 'left tire' : 'right tire',
    name: side === 'left' ? 'Ground, left tire' : 'Ground, right tire',
    where: `Middle of the foot of the truck’s ${side} near tire, on the ${inPicture} in this picture. Scale and level come from the track.`,
    need: 'needed',
  };
}

const TIRES = ['tire front left', 'tire front right', 'tire rear left', 'tire rear right'] as const;

/** Three tires are enough, whichever they are: those that stand count first. */
function tirePoints(placed: readonly MarkRole[]): readonly Point[] {
  const first = TIRES.filter((role) => placed.includes(role));
  const inOrder = [...first, ...TIRES.filter((role) => !first.includes(role))];
  const needed = new Set(inOrder.slice(0, FEWEST_TIRES));
  return TIRES.map((role) => ({
    role,
    label: role.slice('tire '.length),
    name: `Tire, ${role.slice('tire '.length)}`,
    where: 'The middle of this tire, seen from above. Three tires are enough; the fourth checks them.',
    need: needed.has(role) ? 'needed' : 'helps',
  }));
}

const bodyMarkName = (key: string, name: string): string =>
  name.trim() === '' ? `Mark ${key}` : `Mark ${key}, ${name.trim()}`;

/**
 * Body marks. One that so far only pictures of other views show may not be visible in this one: it is needed only
 * while fewer than two others are.
 */
function bodyMarkPoints({ bodyMarks, pictures, body }: BuildState, picture: Picture): readonly Point[] {
  const shows = (other: Picture, key: string) => other.marks.some(({ role }) => role === `mark ${key}`);
  const marked = (key: string) => pictures.filter((other) => shows(other, key));
  const foreign = ({ key }: { readonly key: string }) => {
    const seenIn = marked(key);
    return seenIn.length > 0 && seenIn.every(({ view }) => view !== picture.view);
  };
  const others = bodyMarks.filter(foreign);
  const lacking = Math.max(0, FEWEST_BODY_MARKS - (bodyMarks.length - others.length));
  const spared = new Set(others.slice(lacking).map(({ key }) => key));
  return bodyMarks.map(({ key, name }) => ({
    role: `mark ${key}`,
    label: key,
    name: bodyMarkName(key, name),
    where: `The same sharp corner of the ${body === 'object' ? 'object' : 'body'} in every picture.`,
    need: spared.has(key) ? 'helps' : 'needed',
  }));
}

const HOOK_WHERE = 'Where the string pulls on the truck.';

/** The hooks a standing picture can show the place of: those of the hangs of its view. */
function hookPoints(state: BuildState, picture: Picture): readonly Point[] {
  return state.hooks
    .filter((hook) => !onlyByRuler(state, hook) && hangsHere(state, hook, picture))
    .map((hook) => ({
      role: `hook ${hook.id}`,
      label: 'hook',
      name: hook.name.trim() === '' ? hookName(state, hook) : `Hook: ${hookName(state, hook)}`,
      where: HOOK_WHERE,
      need: hook.source === 'standing picture' ? 'needed' : 'helps',
    }));
}

/** A hook belongs to a view by the hangs from it; one that no picture hangs from, to the side. */
function hangsHere({ pictures }: BuildState, { id }: Hook, { view }: Picture): boolean {
  const hangs = pictures.filter(({ kind, hook }) => kind === 'hanging' && hook === id);
  return hangs.length === 0 ? isSide(view) : hangs.some((hang) => alike(hang.view, view));
}

/** A hook that hangs measured without a picture use, and no picture does: it need not be seen in one. */
const onlyByRuler = ({ pictures, readings }: BuildState, { id, source }: Hook): boolean =>
  source === 'ruler' &&
  readings.some((reading) => reading.kind === 'hang line' && reading.hook === id) &&
  !pictures.some(({ hook }) => hook === id);

function hookOfHang({ hooks }: BuildState, picture: Picture): readonly Point[] {
  return hooks
    .filter(({ id }) => id === picture.hook)
    .map(({ id }) => ({ role: `hook ${id}`, label: 'hook', name: 'Hook', where: HOOK_WHERE, need: 'helps' }));
}

/** Two points of known distance, where no standing picture shows them. */
const scaleOfHang = (state: BuildState): readonly Point[] =>
  state.scaleFrom === 'two points' && standingOf(state)?.counted !== true ? scalePoints('helps', false) : [];

function hubsOfHang(state: BuildState, hang: Picture): readonly Point[] {
  if (!isSide(hang.view)) return [];
  if (hang.suspension === 'free') return hubPoints('needed');
  const measured = state.bodyMarks.filter(({ ahead, height }) => ahead.text.trim() && height.text.trim());
  if (standingOf(state)?.counted === true || state.pictures.some(({ kind }) => kind === 'unsorted'))
    return [];
  if (measured.length >= FEWEST_BODY_MARKS) return hubPoints('helps');
  // One hang with its hubs stands in for the standing picture; in the others they check it.
  const locked = state.pictures.filter(
    ({ kind, view, suspension }) => kind === 'hanging' && isSide(view) && suspension === 'locked',
  );
  const begun = locked.find(({ marks }) => marks.some(({ role }) => role.endsWith(' hub')));
  return hubPoints((begun ?? locked[0])?.id === hang.id ? 'needed' : 'helps');
}
