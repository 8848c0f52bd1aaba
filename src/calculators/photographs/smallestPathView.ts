import { COVERAGE, meters } from '../../physics';
import type { BenchAnswer } from '../../answer/benchAnswer';
import { SIZES_HREF } from '../../answer/nextReading';
import { onPictures, pictureScale } from '../../answer/onPictures';
import type { CrossedPicture } from '../../photo/crossOnPictures';
import { PHOTOGRAPHS_HREF, type Missing } from '../../photo/readState';
import { isEmpty } from '../../sheet/given';
import { hangsOf } from '../../sheet/hangs';
import type { BuildState, MarkRole, Picture } from '../../sheet/schema';
import { asText, decimalsFor, fixed, NO_BREAK, showLength } from '../shared/format';
import { lengthUnitOf } from '../shared/readersUnits';
import { pictureName, standingOf } from './roles';
import { lower } from './words';

/** The smallest path, from two hanging pictures up: what each step needs and buys. Pure functions of the state. */

/** Where a link of the path leads. */
export type PathTarget =
  | { readonly kind: 'missing'; readonly missing: Missing }
  | {
      readonly kind: 'field';
      readonly fold: string;
      /** '' where the fold's first field is meant. */
      readonly path: string;
      /** The picture whose fold it is, where the fold follows the picture in hand. */
      readonly picture?: string;
    }
  | { readonly kind: 'scale'; readonly from: BuildState['scaleFrom'] }
  | { readonly kind: 'page'; readonly href: string };

export interface PathLink {
  readonly what: string;
  readonly target: PathTarget;
}

export interface Rung {
  readonly key: 'point' | 'length' | 'ground' | 'track' | 'base';
  readonly title: string;
  readonly buys: string;
  readonly state: 'done' | 'next' | 'later';
  /** What is still to do for it, each a link; empty when done. */
  readonly needs: readonly PathLink[];
  /** Another way to the same. */
  readonly or: PathLink | null;
}

/** The crossing as a picture shows it; null where it does not. */
export function crossedIn(state: BuildState, picture: Picture | null): CrossedPicture | null {
  const crossing = onPictures(state);
  if (!crossing?.ok || !picture) return null;
  return crossing.value.pictures.find(({ pictureId }) => pictureId === picture.id) ?? null;
}

/** The picture in hand where it shows the crossing, else the first that does; null where none does. */
export function shownCrossing(state: BuildState, picture: Picture | null): CrossedPicture | null {
  const crossing = onPictures(state);
  return crossedIn(state, picture) ?? (crossing?.ok ? (crossing.value.pictures[0] ?? null) : null);
}

/** Largest ± of the point in a picture, px. */
export const pixelsPlusMinus = ({ u }: CrossedPicture): string => {
  const plusMinus = COVERAGE * u;
  return `${fixed(plusMinus, plusMinus < 9.95 ? 1 : 0)}${NO_BREAK}px`;
};

const markName = ({ bodyMarks }: BuildState, key: string): string => {
  const own = bodyMarks.find((mark) => mark.key === key)?.name.trim() ?? '';
  return own === '' ? `mark ${key}` : `mark ${key} (${own})`;
};

const share = (value: number, u: number): string => {
  const plusMinus = COVERAGE * u;
  const decimals = decimalsFor(plusMinus, 2);
  return `${fixed(value, decimals)}${NO_BREAK}±${NO_BREAK}${fixed(plusMinus, decimals)}`;
};

/** Where the point lies relative to two body marks, in parts of their spacing. */
export function relativeSentence(state: BuildState, { relative }: CrossedPicture): string {
  const { along, left, from, to } = relative;
  const side = left.value < 0 ? 'right' : 'left';
  return `${share(along.value, along.u)} of the way from ${markName(state, from)} toward ${markName(state, to)}, and ${share(Math.abs(left.value), left.u)} of that way to its ${side}.`;
}

/** The same in millimeters, or inches, where a picture tells its scale; null while none does. */
export function relativeInLength(state: BuildState): string | null {
  const crossing = onPictures(state);
  if (!crossing?.ok) return null;
  for (const crossed of crossing.value.pictures) {
    const picture = state.pictures.find(({ id }) => id === crossed.pictureId);
    const scale = picture ? pictureScale(state, picture) : null;
    const { relative } = crossed;
    const at = (key: string) => picture?.marks.find(({ role }) => role === `mark ${key}`);
    const [from, to] = [at(relative.from), at(relative.to)];
    if (!scale || !from || !to) continue;
    const spacing = scale.value * Math.hypot(from.x - to.x, from.y - to.y);
    const length = ({ value, u }: { readonly value: number; readonly u: number }) =>
      asText(
        showLength(
          {
            value: meters(Math.abs(value) * spacing),
            // Both in parts: the place relative to the spacing, and the spacing relative to the length.
            u: spacing * Math.hypot(u, (value * scale.u) / scale.value),
          },
          lengthUnitOf(state),
        ),
      );
    const back = relative.along.value < 0 ? 'away from' : 'toward';
    const side = relative.left.value < 0 ? 'right' : 'left';
    return `${length(relative.along)} from mark ${relative.from} ${back} mark ${relative.to}, ${length(relative.left)} to its ${side}.`;
  }
  return null;
}

// The ladder ------------------------------------------------------------------------------------------------

/** Body marks asked for: two carry one picture onto another, the third checks them. */
const MARKS_ASKED = 3;

type Open = Omit<Rung, 'state'> & { readonly done: boolean };

/** The rungs in order; the first that is not done is next. */
export function pathOf(state: BuildState, answer: BenchAnswer, picture: Picture | null): readonly Rung[] {
  const shown = shownCrossing(state, picture);
  const at = state.pictures.find(({ id }) => id === shown?.pictureId) ?? null;
  const rungs: readonly Open[] =
    state.body === 'object'
      ? [pointRung(state, answer), lengthRung(state, answer, at), baseRung(state, answer, at)]
      : [
          pointRung(state, answer),
          lengthRung(state, answer, at),
          groundRung(state, answer, at),
          trackRung(state, answer),
        ];
  const next = rungs.findIndex(({ done }) => !done);
  return rungs.map(({ done, ...rung }, index) => ({
    ...rung,
    needs: done ? [] : rung.needs,
    or: done ? null : rung.or,
    state: done ? 'done' : index === next ? 'next' : 'later',
  }));
}

const missing = (what: string, picture?: Picture, role?: MarkRole): PathLink => ({
  what,
  target: {
    kind: 'missing',
    missing: {
      what,
      href: PHOTOGRAPHS_HREF,
      ...(picture ? { picture: picture.id } : {}),
      ...(role ? { role } : {}),
    },
  },
});

const isMarked = ({ marks }: Picture, role: MarkRole): boolean =>
  marks.some((mark) => mark.role === role && mark.counted);

/** The marks of a picture that are still open among some roles. */
function openMarks(
  state: BuildState,
  picture: Picture,
  roles: readonly (readonly [MarkRole, string])[],
): readonly PathLink[] {
  return roles
    .filter(([role]) => !isMarked(picture, role))
    .map(([role, words]) => missing(`${words} in ${lower(pictureName(state, picture))}`, picture, role));
}

/** Where marks that need one picture only stand: the picture with most of them, else the one given. */
function begunIn(
  { pictures }: BuildState,
  at: Picture | null,
  roles: readonly (readonly [MarkRole, string])[],
): Picture | null {
  const placed = (picture: Picture) => roles.filter(([role]) => isMarked(picture, role)).length;
  return pictures
    .filter(({ counted }) => counted)
    .reduce<Picture | null>(
      (best, picture) => (placed(picture) > (best ? placed(best) : 0) ? picture : best),
      at,
    );
}

function pointRung(state: BuildState, answer: BenchAnswer): Open {
  const crossing = onPictures(state);
  const hangs = hangsOf(state).filter(({ counted }) => counted);
  const needs: PathLink[] = [];
  if (hangs.length === 0) needs.push(missing('a hanging picture'));
  if (hangs.length === 1) needs.push(missing('a second hanging picture, from another hook'));
  if (state.bodyMarks.length < MARKS_ASKED) needs.push(missing(`${MARKS_ASKED} body marks to look for`));
  for (const hang of hangs.slice(0, 2))
    needs.push(
      ...openMarks(state, hang, [
        ['string upper', 'the upper end of the string'],
        ['string lower', 'the lower end of the string'],
        ...state.bodyMarks
          .slice(0, MARKS_ASKED)
          .map(({ key }) => [`mark ${key}`, `mark ${key}`] as readonly [MarkRole, string]),
      ]),
    );
  const [first] = hangs;
  const other = hangs.find(({ view }) => view !== first?.view);
  if (other && state.body === 'truck' && needs.length === 0)
    needs.push({
      what: `${lower(pictureName(state, other))} from the same side as the first`,
      target: { kind: 'field', fold: 'picture', path: '', picture: other.id },
    });
  return {
    key: 'point',
    title: 'Two hangs, three marks',
    buys: 'the point, on every hanging picture',
    done: answer.cg.ok || crossing?.ok === true,
    needs,
    or: null,
  };
}

const POINTS: readonly (readonly [MarkRole, string])[] = [
  ['scale 1', 'the first point of known distance'],
  ['scale 2', 'the second point of known distance'],
];
const HUBS: readonly (readonly [MarkRole, string])[] = [
  ['rear hub', 'the rear hub'],
  ['front hub', 'the front hub'],
];

function lengthRung(state: BuildState, answer: BenchAnswer, at: Picture | null): Open {
  const byPoints = state.body === 'object' || state.scaleFrom === 'two points';
  const needs: PathLink[] = [];
  const roles = byPoints ? POINTS : HUBS;
  const where = begunIn(state, at, roles);
  if (where) needs.push(...openMarks(state, where, roles));
  if (byPoints && isEmpty(state.scaleDistance)) needs.push(missing('the distance of the two points'));
  if (!byPoints && isEmpty(state.dimensions.wheelbase)) needs.push(missing('the wheelbase'));
  const other: PathLink | null =
    state.body === 'object'
      ? null
      : byPoints
        ? { what: 'the wheelbase and both hubs', target: { kind: 'scale', from: 'wheelbase' } }
        : { what: 'two points of known distance', target: { kind: 'scale', from: 'two points' } };
  return {
    key: 'length',
    title: 'One length',
    buys:
      state.body === 'object' ? 'millimeters, along the object’s own axes' : 'the same place in millimeters',
    done: answer.cg.ok || relativeInLength(state) !== null,
    needs,
    or: other,
  };
}

/** With tires of usual size the height is told as well, but poorly: the ground counts as known once it was measured or seen. */
const groundIsKnown = ({ dimensions, pictures }: BuildState): boolean =>
  (!isEmpty(dimensions.rearTireRadius) && !isEmpty(dimensions.frontTireRadius)) ||
  pictures.some(({ counted, marks }) => counted && marks.some(({ role }) => role.startsWith('ground ')));

function groundRung(state: BuildState, answer: BenchAnswer, at: Picture | null): Open {
  const { dimensions } = state;
  const needs: PathLink[] = [];
  const where = begunIn(state, at, HUBS);
  if (where) needs.push(...openMarks(state, where, HUBS));
  if (isEmpty(dimensions.wheelbase)) needs.push(missing('the wheelbase'));
  const radius = (path: string, what: string): PathLink => ({
    what,
    target: { kind: 'field', fold: 'dimensions', path },
  });
  if (isEmpty(dimensions.rearTireRadius))
    needs.push(radius('dimensions/rearTireRadius', 'the rear tire’s radius'));
  if (isEmpty(dimensions.frontTireRadius))
    needs.push(radius('dimensions/frontTireRadius', 'the front tire’s radius'));
  if (needs.length === 0)
    needs.push(
      ...answer.missing.map((each): PathLink => ({
        what: each.what,
        target: { kind: 'missing', missing: each },
      })),
    );
  return {
    key: 'ground',
    title: 'The ground',
    buys: 'height above ground, and place ahead of the rear axle',
    done: answer.cg.ok && groundIsKnown(state),
    needs,
    or: standingOf(state) ? null : missing('a picture of the truck standing'),
  };
}

function trackRung({ dimensions }: BuildState, answer: BenchAnswer): Open {
  const sizes = (what: string): PathLink => ({ what, target: { kind: 'page', href: SIZES_HREF } });
  const needs: PathLink[] = [];
  if (isEmpty(dimensions.rearTrack)) needs.push(sizes('the rear track'));
  if (isEmpty(dimensions.frontTrack)) needs.push(sizes('the front track'));
  return {
    key: 'track',
    title: 'The tracks',
    buys: 'tip angles over all four edges',
    done: answer.tips.ok,
    needs,
    or: null,
  };
}

const ENDS: readonly (readonly [MarkRole, string])[] = [
  ['base 1', 'the first end of the base'],
  ['base 2', 'the second end of the base'],
];

function baseRung(state: BuildState, answer: BenchAnswer, at: Picture | null): Open {
  const where = begunIn(state, at, ENDS);
  return {
    key: 'base',
    title: 'The base',
    buys: 'tip angles over either end of it',
    done: (answer.baseTips?.length ?? 0) > 0,
    needs: where ? openMarks(state, where, ENDS) : [],
    or: null,
  };
}

/** What makes the answer sharper once there is one, most for the effort first. */
export function sharper(state: BuildState): readonly PathLink[] {
  const hangs = hangsOf(state).filter(({ counted }) => counted);
  const links: PathLink[] = [];
  if (hangs.length < 3) links.push(missing('a third hang'));
  const unmeasured = hangs.find((hang) => {
    const hook = state.hooks.find(({ id }) => id === hang.hook);
    return !hook || isEmpty(hook.ahead) || isEmpty(hook.height);
  });
  if (unmeasured && state.body === 'truck')
    links.push({
      what: 'the hooks’ places by ruler',
      target: { kind: 'field', fold: `hang ${unmeasured.id}`, path: '' },
    });
  const far = hangs.find(({ distance }) => isEmpty(distance));
  if (far)
    links.push({
      what: 'the camera’s distance',
      target: {
        kind: 'field',
        fold: 'camera',
        path: `pictures/${state.pictures.indexOf(far)}/distance`,
        picture: far.id,
      },
    });
  return links;
}
