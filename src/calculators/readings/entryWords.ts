import { titleOf } from '../../answer/titles';
import { numberInWords, sortOfReading } from '../../sheet/readingTitles';
import type { AxleLift, BuildState, Given, HangLine, Reading } from '../../sheet/schema';
import { hookName, openSteps, pictureCaption, pictureName } from '../photographs/roles';
import { lower } from '../photographs/words';
import { typedNumber } from '../shared/format';
import type { ListEntry, Standing } from '../shared/listEntries';
import { captionOf } from './captions';
import { hookOf, stillEmpty, VIEW_AXES } from './givensUsed';
import { asTyped, joined, thenTyped, typedThen } from './typedWords';

/** An entry of the list in the words of the trade: what was done, and its numbers as the reader typed them. */
export interface EntryWords {
  readonly title: string;
  readonly detail: string;
}

export function entryWords(state: BuildState, entry: ListEntry): EntryWords {
  switch (entry.kind) {
    case 'picture': {
      const { picture } = entry;
      const steps = openSteps(state, picture).length;
      const marks = picture.marks.filter(({ counted }) => counted).length;
      return {
        title: joined(`${pictureName(state, picture)}, photograph`, pictureCaption(state, picture)),
        detail: joined(
          state.body === 'truck' && `from the ${picture.view}`,
          steps > 0 ? `${steps === 1 ? 'one point' : `${steps} points`} to mark` : `${marks} marks`,
          picture.suspension === 'free' && 'suspension free',
        ),
      };
    }
    case 'parts list': {
      const parts = state.parts.length;
      return {
        title: 'Parts list',
        detail: joined(parts === 1 ? 'one part' : `${parts} parts`, !state.countPartsList && 'not counted'),
      };
    }
    case 'reading': {
      const { reading } = entry;
      const title = `${sortOfReading(reading)}${amountOf(reading)}${numberInWords(state, reading)}`;
      return { title, detail: detailOf(state, reading) };
    }
  }
}

/** The one number that tells a lift or a board from its like: " 22°", " by 120 mm". */
function amountOf(reading: Reading): string {
  const tilted = reading.kind === 'tilt board' || (reading.kind === 'axle lift' && reading.by === 'angle');
  if (tilted) return spaced('', asTyped(reading.angle));
  return reading.kind === 'axle lift' ? spaced(' by', asTyped(reading.rise)) : '';
}

const spaced = (words: string, typed: string | null): string => (typed === null ? '' : `${words} ${typed}`);

function detailOf(state: BuildState, reading: Reading): string {
  switch (reading.kind) {
    case 'total mass':
      return asTyped(reading.load) ?? '';
    case 'axle scales':
      return joined(thenTyped('front', reading.front), thenTyped('rear', reading.rear));
    case 'wheel scales':
      return joined(
        thenTyped('front left', reading.frontLeft),
        thenTyped('front right', reading.frontRight),
        thenTyped('rear left', reading.rearLeft),
        thenTyped('rear right', reading.rearRight),
      );
    case 'axle lift':
      return liftDetail(state, reading);
    case 'hang line':
      return hangDetail(state, reading);
    case 'tilt board':
      return reading.event === 'tips, suspension locked' ? 'tips, suspension locked' : '';
    case 'balance on an edge':
      return (
        typedThen(
          reading.place,
          reading.edge === 'across the truck' ? 'ahead of the rear axle' : 'left of center',
        ) ?? ''
      );
  }
}

/** "rear scale 1551 → 1726 g": truck level, then lifted. */
function liftDetail(state: BuildState, lift: AxleLift): string {
  const axle = lift.scaleUnder === 'front axle' ? 'front' : 'rear';
  const lifted = asTyped(lift.load);
  const level = levelLoad(state, axle);
  return joined(
    lifted !== null && `${axle} scale ${level === null ? '' : `${beside(level, lift.load)} → `}${lifted}`,
    lift.suspension === 'free' && 'suspension free',
  );
}

/** What the scale under an axle showed with the truck level: of the first axle scales that count. */
function levelLoad({ readings }: BuildState, axle: 'front' | 'rear'): Given | null {
  const scales = readings.find((reading) => reading.kind === 'axle scales' && reading.counted);
  return scales?.kind === 'axle scales' && asTyped(scales[axle]) !== null ? scales[axle] : null;
}

/** A number before an arrow, without its unit where the one behind has the same. */
const beside = (level: Given, then: Given): string =>
  level.unit === then.unit ? typedNumber(level.text) : (asTyped(level) ?? '');

const AXIS_WORDS = { ahead: 'ahead', left: 'left', height: 'up' } as const;

/** "nose 22° below level"; a negative slope is one above it. */
const fromLevel = (side: string, slope: string): string =>
  /^[−-]/.test(slope) ? `${side} ${slope.slice(1)} above level` : `${side} ${slope} below level`;

/** "from the hood pin, string through 140 mm ahead, 60 mm up" */
function hangDetail(state: BuildState, hang: HangLine): string {
  const hook = hookOf(state, hang.hook);
  const slope = asTyped(hang.angle);
  const low = hang.view === 'rear' || hang.view === 'front' ? 'left side' : 'nose';
  const point = joined(...VIEW_AXES[hang.view].map((axis) => typedThen(hang[axis], AXIS_WORDS[axis])));
  return joined(
    hook !== null &&
      `from ${hook.name.trim() === '' ? lower(hookName(state, hook)) : `the ${hook.name.trim()}`}`,
    hang.by === 'angle' ? slope !== null && fromLevel(low, slope) : point !== '' && `string through ${point}`,
    hang.suspension === 'free' && 'suspension free',
  );
}

/** What stands beside an entry that is not counted, in words; '' for one that is. */
export function standingWords(state: BuildState, entry: ListEntry, standing: Standing): string {
  switch (standing?.because) {
    case undefined:
      return '';
    case 'set aside': {
      if (entry.kind === 'parts list') return '';
      const note = (entry.kind === 'picture' ? entry.picture.note : entry.reading.note).trim();
      return note === '' ? 'set aside' : `set aside; note: ${note}`;
    }
    case 'another kind':
      return 'kept, not counted';
    case 'incomplete':
      return `still to read: ${missingNames(state, entry)}`;
    case 'waiting':
      return standing.for === 'hook'
        ? 'waits for the place of its hook, by ruler'
        : `waits for the ${lower(titleOf(state, standing.for))}`;
    case 'unmarked':
      return 'gives no line yet';
    case 'unread list':
      return 'a part lacks its mass or place';
    case 'fault':
      return 'has a number that cannot be read';
  }
}

function missingNames(state: BuildState, entry: ListEntry): string {
  if (entry.kind !== 'reading') return '';
  const { reading } = entry;
  return stillEmpty(state, reading)
    .map((name) => lower(captionOf(reading, name)))
    .join(', ');
}
