import type { Estimate } from '../physics';
import { markUncertainty } from '../sheet/derived';
import { FIELDS } from '../sheet/fields';
import { isEmpty, labeled } from '../sheet/given';
import type { BuildState, Mark, MarkRole, Picture } from '../sheet/schema';
import { focalPixels } from './focalLength';
import type {
  HangingPicture,
  HookGivens,
  MarkedPoint,
  PictureGivens,
  StandingPicture,
  TirePoint,
} from './fit/givens';
import type { Fault, Need, Read } from './readState';
import { isSide } from './views';

/** A mark with this role that counts. */
export const counted = (picture: Picture, role: MarkRole): Mark | undefined =>
  picture.marks.find((mark) => mark.role === role && mark.counted);

const TIRES: Readonly<Record<'rear' | 'front' | 'top', readonly TirePoint[]>> = {
  rear: ['ground left', 'ground right'],
  front: ['ground left', 'ground right'],
  top: ['tire front left', 'tire front right', 'tire rear left', 'tire rear right'],
};
/** Tires that a picture needs to show where the truck's axes lie: two feet, or enough treads for length and width. */
const FEWEST_TIRES = { rear: 2, front: 2, top: 3 } as const;

const marksInWords = (keys: readonly string[]): string =>
  keys.length === 1 ? `mark ${keys[0]}` : `marks ${keys.join(' and ')}`;

/** A distance that only starts the fit, where the focal length tells it, m. */
const UNTOLD_DISTANCE_U = 10;

interface Surroundings {
  readonly read: Read;
  readonly need: Need;
  readonly faults: Fault[];
  readonly isObject: boolean;
  readonly twoPoints: boolean;
  readonly href: string;
}

/** Whether the lower of two ends of a string is the nearer one to the body; an order in which they were marked is none. */
function fromTheTruck(
  bodyMarks: ReadonlyMap<string, MarkedPoint>,
  upper: MarkedPoint,
  lower: MarkedPoint,
): boolean {
  if (bodyMarks.size === 0) return true;
  const far = (end: MarkedPoint) =>
    [...bodyMarks.values()].reduce((sum, { x, y }) => sum + Math.hypot(x - end.x, y - end.y), 0);
  return far(upper) >= far(lower);
}

/** Reads one picture after the other as the fit takes them; null where one is not complete, with what it misses. */
export class PictureReader {
  constructor(
    private readonly state: BuildState,
    private readonly around: Surroundings,
  ) {}

  standing(
    picture: Picture,
    name: string,
    { radiiKnown }: { readonly radiiKnown: boolean },
  ): StandingPicture | null {
    const { need, isObject } = this.around;
    const givens = this.givens(picture, name);
    const point = (role: MarkRole) => this.point(picture, role);
    let complete = givens !== null;
    // An object keeps no ground from when its pictures were a truck's.
    const ground = isObject ? [] : (['ground rear', 'ground front'] as const).map(point);
    if (isSide(picture.view) && !isObject) {
      for (const role of ['rear hub', 'front hub'] as const)
        if (!point(role)) {
          need(`the ${role} in ${name}`, picture, role);
          complete = false;
        }
      if (!radiiKnown && ground.some((mark) => !mark)) {
        if (!ground[0]) need(`the ground under the rear tire in ${name}`, picture, 'ground rear');
        if (!ground[1]) need(`the ground under the front tire in ${name}`, picture, 'ground front');
      }
    }
    this.needScale(picture, name);
    const bodyMarks = this.bodyMarks(picture);
    const spare = this.state.bodyMarks.filter(({ key }) => !bodyMarks.has(key));
    // From an end or the top a truck shows other landmarks; that its own hangs share them is asked for there.
    for (const { key } of isSide(picture.view) ? spare.slice(0, Math.max(0, 2 - bodyMarks.size)) : [])
      need(`mark ${key} in ${name}`, picture, `mark ${key}`);
    const hooks = new Map<string, MarkedPoint>();
    for (const hook of this.state.hooks) {
      const mark = point(`hook ${hook.id}`);
      if (mark) hooks.set(hook.id, mark);
      else if (hook.source === 'standing picture' && this.hungBy(hook.id, picture))
        need(`the ${hook.name || 'hook'} in ${name}`, picture, `hook ${hook.id}`);
    }
    if (!givens || !complete || !this.placeable(picture, name, bodyMarks.size)) return null;
    return { ...givens, ground: ground.filter((mark) => mark !== undefined), hooks };
  }

  hanging(
    picture: Picture,
    name: string,
    { hooks, others }: { readonly hooks: readonly HookGivens[]; readonly others: readonly Picture[] },
  ): HangingPicture | null {
    const { need, faults, href, isObject } = this.around;
    const givens = this.givens(picture, name);
    const upper = this.point(picture, 'string upper');
    const lower = this.point(picture, 'string lower');
    if (!upper) need(`the upper end of the string in ${name}`, picture, 'string upper');
    if (!lower) need(`the lower end of the string in ${name}`, picture, 'string lower');
    const bodyMarks = this.bodyMarks(picture);
    const measured = new Set(
      this.state.bodyMarks.flatMap(({ key, ahead, height }) =>
        isEmpty(ahead) || isEmpty(height) ? [] : [key],
      ),
    );
    const known = (key: string) =>
      measured.has(key) || others.some((other) => counted(other, `mark ${key}`) !== undefined);
    const shared = [...bodyMarks.keys()].filter(known);
    const own = givens?.frontHub && givens.rearHub && (picture.suspension === 'locked' || isObject);
    if (!own && shared.length < 2 && others.length > 0)
      this.needShared(picture, name, { open: 2 - shared.length, known, others });
    const hook = this.state.hooks.find(({ id }) => id === picture.hook);
    const place = hook && hooks.find(({ id }) => id === hook.id);
    const free = picture.suspension === 'free' && !isObject;
    // Locked, the string's two marks alone tell the line; free, an axle that carries the hook moves with it.
    if (free && !hook) need(`the hook of ${name}`, picture);
    if (free && hook && !place && hook.source === 'ruler' && (isEmpty(hook.ahead) || isEmpty(hook.height)))
      need(`the place of the ${hook.name || 'hook'}`, picture);
    if (!givens || !upper || !lower || (free && !place) || (!own && shared.length < 2)) return null;
    if (upper.x === lower.x && upper.y === lower.y) {
      faults.push({
        message: `${name}: both ends of the string are marked at one point. Mark them far apart.`,
        href,
      });
      return null;
    }
    const hookMark = hook && this.point(picture, `hook ${hook.id}`);
    return {
      ...givens,
      hook: place?.id ?? null,
      suspension: free ? 'free' : 'locked',
      string: fromTheTruck(bodyMarks, upper, lower) ? [upper, lower] : [lower, upper],
      twist: this.twist(picture, name),
      ...(hookMark ? { hookMark } : {}),
    };
  }

  /** What would tie a hang to the other pictures: as many body marks in common as are still `open`. */
  private needShared(
    picture: Picture,
    name: string,
    {
      open,
      known,
      others,
    }: {
      readonly open: number;
      readonly known: (key: string) => boolean;
      readonly others: readonly Picture[];
    },
  ): void {
    const { need } = this.around;
    const keys = this.state.bodyMarks.map(({ key }) => key);
    const marked = (key: string) => counted(picture, `mark ${key}`) !== undefined;
    const alone = keys.filter((key) => marked(key) && !known(key)).slice(0, open);
    const { view } = picture;
    // An end or the top shows landmarks of its own, which pictures from a side do not.
    if (!isSide(view) && alone.length === open) {
      const standing = others.find((other) => other.kind === 'standing' && other.view === view);
      if (standing)
        for (const key of alone)
          need(`mark ${key} in ${standing.name || 'the standing picture'}`, standing, `mark ${key}`);
      else
        need(
          `a picture from the ${view} of the truck standing, with ${marksInWords(alone)}, or where ${alone.length > 1 ? 'they lie' : 'it lies'} by ruler`,
        );
      return;
    }
    const unmarked = keys.filter((key) => !marked(key));
    const first = unmarked.filter(known);
    for (const key of [...first, ...unmarked.filter((each) => !first.includes(each))].slice(0, open))
      need(`mark ${key} in ${name}`, picture, `mark ${key}`);
  }

  /** What would tie a complete picture to `others`, which are placed. */
  untied(picture: Picture, name: string, others: readonly Picture[]): void {
    const known = (key: string) => others.some((other) => counted(other, `mark ${key}`) !== undefined);
    const shared = this.state.bodyMarks.filter(({ key }) => known(key) && counted(picture, `mark ${key}`));
    if (shared.length < 2) this.needShared(picture, name, { open: 2 - shared.length, known, others });
  }

  private hungBy(hook: string, standing: Picture): boolean {
    return this.state.pictures.some(
      ({ kind, counted: counts, hook: own, view }) =>
        kind === 'hanging' && counts && own === hook && (view === standing.view || isSide(view)),
    );
  }

  private twist(picture: Picture, name: string): number {
    const { read, href } = this.around;
    const twist = read(picture.twist, labeled(FIELDS.twist, `${name}, twist`), href);
    // To which side is not asked; a typed size widens what the fit must allow.
    return twist ? Math.hypot(twist.value, twist.u) : NaN;
  }

  /** What every picture has; null where a number of it cannot be read. */
  private givens(picture: Picture, name: string): PictureGivens | null {
    const { read, href, isObject, twoPoints } = this.around;
    const { id, view, width, height } = picture;
    const distance = read(picture.distance, labeled(FIELDS.distance, `${name}, camera distance`), href);
    const oblique = read(picture.oblique, labeled(FIELDS.oblique, `${name}, view off square`), href);
    const twist = read(picture.twist, labeled(FIELDS.twist, `${name}, twist`), href);
    const focal = this.focal(picture, name);
    if (!distance || !oblique || !twist) return null;
    const untold = focal && isEmpty(picture.distance) && picture.distance.plusMinus.trim() === '';
    const [rearHub, frontHub] = (isObject ? ['scale 1', 'scale 2'] : ['rear hub', 'front hub']).map((role) =>
      this.point(picture, role),
    );
    const tires = new Map<TirePoint, MarkedPoint>();
    if (!isSide(view))
      for (const role of TIRES[view]) {
        const mark = this.point(picture, role);
        if (mark) tires.set(role, mark);
      }
    const scale =
      twoPoints && !isObject
        ? (['scale 1', 'scale 2'] as const).map((role) => this.point(picture, role))
        : [];
    const [first, second] = scale;
    return {
      id,
      view,
      width,
      height,
      distance: untold ? { value: distance.value, u: UNTOLD_DISTANCE_U } : distance,
      ...(focal ? { focal } : {}),
      oblique: Math.hypot(oblique.value, oblique.u),
      bodyMarks: this.bodyMarks(picture),
      ...(rearHub ? { rearHub } : {}),
      ...(frontHub ? { frontHub } : {}),
      tires,
      ...(first && second ? { scalePoints: [first, second] as const } : {}),
    };
  }

  private focal(picture: Picture, name: string): Estimate | null {
    const { read, href } = this.around;
    const told = read(picture.focalLength, labeled(FIELDS.focalLength, `${name}, focal length`), href);
    if (!told) return null;
    const { value, u } = focalPixels(told.value * 1000, picture.width, picture.height);
    return { value, u: Math.hypot(u, (value * told.u) / told.value) };
  }

  private point(picture: Picture, role: MarkRole): MarkedPoint | undefined {
    const mark = counted(picture, role);
    if (!mark) return undefined;
    const u = markUncertainty(picture, mark);
    if (!u.ok) {
      const { faults, href } = this.around;
      if (!faults.some(({ message }) => message === u.message)) faults.push({ message: u.message, href });
      return undefined;
    }
    return { x: mark.x, y: mark.y, u: u.value };
  }

  private bodyMarks(picture: Picture): Map<string, MarkedPoint> {
    const marks = new Map<string, MarkedPoint>();
    for (const { key } of this.state.bodyMarks) {
      const point = this.point(picture, `mark ${key}`);
      if (point) marks.set(key, point);
    }
    return marks;
  }

  private needScale(picture: Picture, name: string): void {
    const { twoPoints, isObject, need } = this.around;
    if (!twoPoints || isObject) return;
    const has = (role: MarkRole) =>
      this.state.pictures.some(
        (other) => other.counted && other.kind !== 'unsorted' && counted(other, role) !== undefined,
      );
    if (!has('scale 1')) need(`the first point of known distance in ${name}`, picture, 'scale 1');
    if (!has('scale 2')) need(`the second point of known distance in ${name}`, picture, 'scale 2');
  }

  /** Whether a standing picture from an end or the top shows enough of the truck to be placed. */
  private placeable(picture: Picture, name: string, bodyMarks: number): boolean {
    const { view } = picture;
    if (isSide(view)) return true;
    const shown = TIRES[view].filter((role) => counted(picture, role)).length;
    if (shown >= FEWEST_TIRES[view] || shown + bodyMarks >= 4) return true;
    for (const role of TIRES[view]
      .filter((each) => !counted(picture, each))
      .slice(0, FEWEST_TIRES[view] - shown))
      this.around.need(
        `the ${role.startsWith('ground') ? `foot of the ${role.slice(7)} tire` : role.replace('tire ', '') + ' tire'} in ${name}`,
        picture,
        role,
      );
    return false;
  }
}
