import type { AxleLift, BuildState, Change, Given, HangLine, Reading, TiltBoard } from '../../sheet/schema';
import { openSteps, pictureCaption, pictureName, hookName } from '../photographs/roles';
import { NO_BREAK, typedNumber } from '../shared/format';
import { type EntryStanding, hookOf, VIEW_AXES, type ListEntry } from '../shared/listEntries';
import { captionOf } from './captions';

/** An entry of the list in the words of the trade: what was done, and its numbers as the reader typed them. */
export interface EntryWords {
  readonly title: string;
  readonly detail: string;
}

/** "22°", "1551 g"; null while nothing is typed. */
export function asTyped({ text, unit }: Given): string | null {
  const number = typedNumber(text);
  if (number === '') return null;
  return unit === 'deg' ? `${number}°` : `${number}${NO_BREAK}${unit}`;
}

const joined = (...parts: readonly (string | null | false)[]): string => parts.filter(Boolean).join(', ');
/** "40 mm ahead"; null while there is no number. */
const placed = (given: Given, words: string): string | null => {
  const typed = asTyped(given);
  return typed === null ? null : `${typed} ${words}`;
};

export function entryWords(state: BuildState, entry: ListEntry): EntryWords {
  switch (entry.kind) {
    case 'picture': {
      const { picture } = entry;
      const steps = openSteps(state, picture).length;
      const marks = picture.marks.filter(({ counted }) => counted).length;
      return {
        title: joined(`${pictureName(state, picture)}, photograph`, pictureCaption(state, picture)),
        detail: joined(
          `from the ${picture.view}`,
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
    case 'reading':
      return readingWords(state, entry.reading);
  }
}

function readingWords(state: BuildState, reading: Reading): EntryWords {
  switch (reading.kind) {
    case 'total mass':
      return { title: 'Total mass', detail: asTyped(reading.load) ?? '' };
    case 'axle scales':
      return {
        title: 'Axle scales',
        detail: joined(labeledNumber('front', reading.front), labeledNumber('rear', reading.rear)),
      };
    case 'wheel scales':
      return {
        title: 'Wheel scales',
        detail: joined(
          labeledNumber('front left', reading.frontLeft),
          labeledNumber('front right', reading.frontRight),
          labeledNumber('rear left', reading.rearLeft),
          labeledNumber('rear right', reading.rearRight),
        ),
      };
    case 'axle lift':
      return liftWords(state, reading);
    case 'hang line':
      return hangWords(state, reading);
    case 'tilt board':
      return boardWords(reading);
    case 'balance on an edge':
      return reading.edge === 'across the truck'
        ? {
            title: 'Balance on an edge across',
            detail: placed(reading.place, 'ahead of the rear axle') ?? '',
          }
        : { title: 'Balance on an edge along', detail: placed(reading.place, 'left of center') ?? '' };
  }
}

const labeledNumber = (label: string, given: Given): string | null => {
  const typed = asTyped(given);
  return typed === null ? null : `${label} ${typed}`;
};

function liftWords(state: BuildState, lift: AxleLift): EntryWords {
  const end = lift.raised === 'front axle' ? 'nose' : 'tail';
  const amount = asTyped(lift.by === 'angle' ? lift.angle : lift.rise);
  const how = amount === null ? '' : lift.by === 'angle' ? ` ${amount}` : ` by ${amount}`;
  const axle = lift.scaleUnder === 'front axle' ? 'front' : 'rear';
  const raised = asTyped(lift.load);
  const level = levelLoad(state, axle);
  return {
    title: `Axle lift, ${end} up${how}`,
    detail: joined(
      raised !== null &&
        `${axle} scale ${level === null ? raised : `${beside(level, lift.load)} → ${raised}`}`,
    ),
  };
}

/** What the scale under an axle showed with the truck level: of the first axle scales that count. */
function levelLoad({ readings }: BuildState, axle: 'front' | 'rear'): Given | null {
  const scales = readings.find((reading) => reading.kind === 'axle scales' && reading.counted);
  return scales?.kind === 'axle scales' && asTyped(scales[axle]) !== null ? scales[axle] : null;
}

/** A number before an arrow, without its unit where the one behind has the same. */
const beside = (level: Given, then: Given): string =>
  level.unit === then.unit ? typedNumber(level.text) : (asTyped(level) ?? '');

const VIEW_WORDS: Readonly<Record<HangLine['view'], string>> = {
  side: 'seen from the side',
  rear: 'seen from behind',
  front: 'seen from the front',
  top: 'seen from above',
};
const AXIS_WORDS = { ahead: 'ahead', left: 'left', height: 'up' } as const;

function hangWords(state: BuildState, hang: HangLine): EntryWords {
  const hook = hookOf(state, hang.hook);
  const slope = asTyped(hang.angle);
  const lower = hang.view === 'rear' || hang.view === 'front' ? 'left side' : 'nose';
  const point = joined(...VIEW_AXES[hang.view].map((axis) => placed(hang[axis], AXIS_WORDS[axis])));
  return {
    title: joined('Hang by ruler', hook !== null && hookName(state, hook)),
    detail: joined(
      VIEW_WORDS[hang.view],
      hang.by === 'angle'
        ? slope !== null && `${lower} ${slope} below level`
        : point !== '' && `string through ${point}`,
      hang.suspension === 'free' && 'suspension free',
    ),
  };
}

export const TOWARD_WORDS: Readonly<Record<TiltBoard['toward'], string>> = {
  left: 'left side down',
  right: 'right side down',
  'nose up': 'nose up',
  'nose down': 'nose down',
};
export const EVENT_WORDS: Readonly<Record<TiltBoard['event'], string>> = {
  'tips, suspension locked': 'tips, suspension locked',
  'tips, suspension free': 'tips on its springs',
  'first wheel lifts': 'first wheel lifts',
  slides: 'slides before it tips',
};

function boardWords({ toward, event, angle }: TiltBoard): EntryWords {
  const slope = asTyped(angle);
  return {
    title: `Board, ${TOWARD_WORDS[toward]}${slope === null ? '' : ` ${slope}`}`,
    detail: EVENT_WORDS[event],
  };
}

/** What stands beside an entry that is not counted, in words; '' for one that is. */
export function standingWords(entry: ListEntry, standing: EntryStanding): string {
  switch (standing.kind) {
    case 'counted':
      return '';
    case 'set aside': {
      if (entry.kind === 'parts list') return '';
      const note = (entry.kind === 'picture' ? entry.picture.note : entry.reading.note).trim();
      return note === '' ? 'set aside' : `set aside: ${note}`;
    }
    case 'kept':
      return 'kept, not counted';
    case 'incomplete': {
      if (entry.kind !== 'reading') return 'not marked yet';
      const names = standing.missing.map((path) => missingName(entry.reading, path));
      return `still to read: ${names.join(', ')}`;
    }
    case 'faulty':
      return 'has a number that cannot be read';
  }
}

/** What a missing number is called in the middle of a sentence. */
function missingName(reading: Reading, path: string): string {
  const [list, , name = ''] = path.split('/');
  if (list === 'hooks') return HOOK_WORDS[name] ?? 'the hook’s place';
  if (list === 'hook') return 'the place of its hook by ruler';
  const caption = captionOf(reading, name);
  return caption.charAt(0).toLowerCase() + caption.slice(1);
}

const HOOK_WORDS: Readonly<Record<string, string>> = {
  ahead: 'how far ahead its hook is',
  left: 'how far left its hook is',
  height: 'how high its hook is',
};

/** "Battery": "move 250 g down 40 mm"; "Skid plate": "add 90 g at 160 mm ahead, 45 mm up". */
export function changeWords(change: Change, index: number): EntryWords {
  const title = change.name.trim() || `Change ${index + 1}`;
  const mass = asTyped(change.mass);
  if (change.kind === 'added') {
    const place = joined(
      placed(change.ahead, 'ahead'),
      placed(change.left, 'left'),
      placed(change.height, 'up'),
    );
    return {
      title,
      detail: mass === null ? '' : `add ${mass}${place === '' ? '' : ` at ${place}`}`,
    };
  }
  const way = joined(
    moved(change.ahead, 'forward', 'back'),
    moved(change.left, 'left', 'right'),
    moved(change.height, 'up', 'down'),
  );
  return { title, detail: mass === null ? '' : `move ${mass}${way === '' ? '' : ` ${way}`}` };
}

/** "down 40 mm" for −40 mm of height; null for nothing or zero. */
function moved(given: Given, plus: string, minus: string): string | null {
  const typed = asTyped(given);
  if (typed === null || /^[−+]?[0.,]+\D*$/.test(typed)) return null;
  return typed.startsWith('−') ? `${minus} ${typed.slice(1)}` : `${plus} ${typed.replace(/^\+/, '')}`;
}
