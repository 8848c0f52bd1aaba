import type { AnySheet, MigrationStep } from './migrations';

const isRecord = (value: unknown): value is AnySheet =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const emptyLength = { text: '', unit: 'mm', plusMinus: '', kind: 'expanded' } as const;

/** Every entry of a list that is a record, changed; what is no list stays for the validation to refuse. */
const eachOf = (list: unknown, change: (entry: AnySheet) => AnySheet): unknown =>
  Array.isArray(list) ? list.map((entry: unknown) => (isRecord(entry) ? change(entry) : entry)) : list;

const liftPicture = (picture: AnySheet): AnySheet => ({
  ...picture,
  focalLength: { ...emptyLength },
  marks: eachOf(picture['marks'], (mark) => ({ ...mark, source: 'hand' })),
});

const liftState = (state: AnySheet): AnySheet => ({
  ...state,
  body: 'truck',
  bodyMarks: eachOf(state['bodyMarks'], (mark) => ({
    ...mark,
    ahead: { ...emptyLength },
    height: { ...emptyLength },
  })),
  pictures: eachOf(state['pictures'], liftPicture),
});

/** Places of body marks by ruler, focal lengths, marks found in the picture and objects without wheels come in. */
export const version2To3: MigrationStep = {
  from: 2,
  what: 'body, focalLength, source of a mark, and ahead and height of a body mark are new; all pictures stay as they were',
  change: (sheet) => ({ ...sheet, states: eachOf(sheet['states'], liftState) }),
};
