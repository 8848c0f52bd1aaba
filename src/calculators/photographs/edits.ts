import { emptyBodyMark, emptyHook, emptyPicture } from '../../sheet/empty';
import type { BenchSheet, BuildState, Hook, Mark, MarkRole, Picture } from '../../sheet/schema';
import { hangsOf } from '../../sheet/hangs';
import { BODY_MARK_KEYS } from './roles';
import { rounded, type Place } from './surfaceView';

/**
 * What the photograph calculator changes in a bench sheet. Every function gives a recipe for edit() or tryOut();
 * a recipe whose picture, mark or hook is gone by then changes nothing.
 */
export type SheetRecipe = (draft: BenchSheet) => void;

export const openStateOf = (sheet: BenchSheet): BuildState | undefined =>
  sheet.states.find(({ id }) => id === sheet.openState) ?? sheet.states[0];

const inState =
  (change: (state: BuildState) => void): SheetRecipe =>
  (draft) => {
    const state = openStateOf(draft);
    if (state) change(state);
  };

/** Changes one picture of the open state. */
export const inPicture = (id: string, change: (picture: Picture, state: BuildState) => void): SheetRecipe =>
  inState((state) => {
    const picture = state.pictures.find((candidate) => candidate.id === id);
    if (picture) change(picture, state);
  });

/** Changes one hook of the open state. */
export const inHook = (id: string, change: (hook: Hook) => void): SheetRecipe =>
  inState((state) => {
    const hook = state.hooks.find((candidate) => candidate.id === id);
    if (hook) change(hook);
  });

const inMark = (id: string, role: MarkRole, change: (mark: Mark) => void): SheetRecipe =>
  inPicture(id, (picture) => {
    const mark = picture.marks.find((candidate) => candidate.role === role);
    if (mark) change(mark);
  });

/** Puts a mark at a place of a picture, whether it stood there before or not. */
export const placeMark = (pictureId: string, role: MarkRole, place: Place): SheetRecipe =>
  inPicture(pictureId, (picture) => {
    const { x, y } = rounded(place);
    const mark = picture.marks.find((candidate) => candidate.role === role);
    if (!mark) picture.marks.push({ role, x, y, plusMinus: '', counted: true, source: 'hand' });
    else {
      // The ± that the picture's edges gave belongs to the place they gave.
      if (mark.source === 'found') mark.plusMinus = '';
      Object.assign(mark, { x, y, source: 'hand' });
    }
  });

export const removeMark = (pictureId: string, role: MarkRole): SheetRecipe =>
  inPicture(pictureId, (picture) => {
    picture.marks = picture.marks.filter((mark) => mark.role !== role);
  });

export const countMark = (pictureId: string, role: MarkRole, counted: boolean): SheetRecipe =>
  inMark(pictureId, role, (mark) => {
    mark.counted = counted;
  });

export const setMarkPlusMinus = (pictureId: string, role: MarkRole, plusMinus: string): SheetRecipe =>
  inMark(pictureId, role, (mark) => {
    mark.plusMinus = plusMinus;
  });

/** Adds the next lettered body mark; nothing when all six are in use. */
export const addBodyMark = (): SheetRecipe =>
  inState((state) => {
    const key = BODY_MARK_KEYS.find((letter) => !state.bodyMarks.some((mark) => mark.key === letter));
    if (key === undefined) return;
    state.bodyMarks.push(emptyBodyMark(key));
    state.bodyMarks.sort((a, b) => a.key.localeCompare(b.key));
  });

/** Takes a body mark away, with its places in all pictures. */
export const removeBodyMark = (key: string): SheetRecipe =>
  inState((state) => {
    state.bodyMarks = state.bodyMarks.filter((mark) => mark.key !== key);
    for (const picture of state.pictures)
      picture.marks = picture.marks.filter((mark) => mark.role !== `mark ${key}`);
  });

export const nameBodyMark = (key: string, name: string): SheetRecipe =>
  inState((state) => {
    const mark = state.bodyMarks.find((candidate) => candidate.key === key);
    if (mark) mark.name = name;
  });

/**
 * Adds a picture that has just been stored; an unsorted one waits for sortPicture. A state without body marks gets
 * three to look for, since two give no check. `focalLength` as that of a 35 mm camera, mm, where the file tells it.
 */
export const addPicture = (
  id: string,
  kind: Picture['kind'],
  width: number,
  height: number,
  focalLength: number | null = null,
): SheetRecipe =>
  inState((state) => {
    const picture: Picture = { ...emptyPicture('unsorted', width, height), id };
    if (focalLength !== null) picture.focalLength.text = String(focalLength);
    sort(state, picture, kind);
    state.pictures.push(picture);
    if (state.bodyMarks.length === 0)
      state.bodyMarks.push(...['A', 'B', 'C'].map((key) => emptyBodyMark(key)));
  });

/**
 * Says what a picture shows. One that nobody had sorted takes side, camera distance and suspension over from those
 * sorted before it; a hanging one gets a hook of its own, and one that no longer hangs gives it back.
 */
export const sortPicture = (id: string, kind: Picture['kind']): SheetRecipe =>
  inPicture(id, (picture, state) => sort(state, picture, kind));

function sort(state: BuildState, picture: Picture, kind: Picture['kind']): void {
  if (picture.kind === 'unsorted' && kind !== 'unsorted') {
    const like = state.pictures.findLast((other) => other.kind !== 'unsorted' && other.id !== picture.id);
    if (like) Object.assign(picture, { view: like.view, distance: structuredClone(like.distance) });
    picture.suspension = hangsOf(state).at(-1)?.suspension ?? 'locked';
  }
  picture.kind = kind;
  if (kind === 'hanging') {
    // Of an object the string alone is used: its hook has no place in axes that only the picture gives.
    if (picture.hook === null && state.body === 'truck') picture.hook = spareHook(state);
  } else {
    const former = picture.hook;
    picture.hook = null;
    forgetIdleHook(state, former);
  }
}

/** A hook that no picture hangs from, or a new one. */
function spareHook(state: BuildState): string {
  const unused = state.hooks.find((hook) => !state.pictures.some((other) => other.hook === hook.id));
  if (unused) return unused.id;
  const hook = emptyHook();
  state.hooks.push(hook);
  return hook.id;
}

/** Drops a hook for which nothing was typed and that nothing else uses. */
function forgetIdleHook(state: BuildState, id: string | null): void {
  const hook = state.hooks.find((candidate) => candidate.id === id);
  if (!hook || state.pictures.some((other) => other.hook === hook.id)) return;
  const typed = [hook.ahead, hook.height, hook.left].some(({ text }) => text !== '');
  const marked = state.pictures.some((other) => other.marks.some(({ role }) => role === `hook ${hook.id}`));
  const hung = state.readings.some((reading) => reading.kind === 'hang line' && reading.hook === hook.id);
  if (!typed && !marked && !hung && hook.name === '')
    state.hooks = state.hooks.filter((candidate) => candidate.id !== hook.id);
}

/** Takes a picture out, and the hook made for it where nothing was typed for that hook and nothing else uses it. */
export const removePicture = (id: string): SheetRecipe =>
  inPicture(id, (picture, state) => {
    state.pictures = state.pictures.filter((other) => other.id !== id);
    forgetIdleHook(state, picture.hook);
  });

/** Leaves a picture out of the answer with a reason, or counts it again; it is kept either way. */
export const countPicture = (id: string, counted: boolean, note: string): SheetRecipe =>
  inPicture(id, (picture) => {
    picture.counted = counted;
    picture.note = note;
  });

/** Ties a hanging picture's string to a hook; null makes a new one. */
export const chooseHook = (pictureId: string, hookId: string | null): SheetRecipe =>
  inPicture(pictureId, (picture, state) => {
    const former = picture.hook;
    if (hookId === null) {
      const hook = emptyHook();
      state.hooks.push(hook);
      picture.hook = hook.id;
    } else picture.hook = hookId;
    // The mark in this picture stays where the string pulls; only the hook it belongs to has another name now.
    for (const mark of picture.marks)
      if (former !== null && mark.role === `hook ${former}`) mark.role = `hook ${picture.hook}`;
  });

/** The hook of a hang is not known, or not worth measuring: its string alone gives the line. */
export const untieHook = (pictureId: string): SheetRecipe =>
  inPicture(pictureId, (picture, state) => {
    const former = picture.hook;
    picture.hook = null;
    picture.marks = picture.marks.filter(({ role }) => role !== `hook ${former}`);
    forgetIdleHook(state, former);
  });

/** Changes two marks of a picture with each other, where the reader took the one for the other. */
export const swapMarks = (pictureId: string, one: MarkRole, other: MarkRole): SheetRecipe =>
  inPicture(pictureId, ({ marks }) => {
    for (const mark of marks)
      if (mark.role === one) mark.role = other;
      else if (mark.role === other) mark.role = one;
  });

/** Puts several marks at places of a picture as one step: those that were offered and looked right. */
export const placeMarks = (
  pictureId: string,
  marks: readonly { readonly role: MarkRole; readonly place: Place }[],
): SheetRecipe => {
  const recipes = marks.map(({ role, place }) => placeMark(pictureId, role, place));
  return (draft) => recipes.forEach((recipe) => recipe(draft));
};

const UNNAMED: Readonly<Record<BuildState['body'], { readonly sheet: string; readonly state: string }>> = {
  truck: { sheet: 'My truck', state: 'As driven' },
  object: { sheet: 'My object', state: 'As it hangs' },
};

/**
 * What is measured: a truck on its wheels, or any object, with axes of its own. A sheet of one state that still has
 * its first names gets those of the other body; names of the reader's own stay.
 */
export const chooseBody =
  (body: BuildState['body']): SheetRecipe =>
  (draft) => {
    const state = openStateOf(draft);
    if (!state) return;
    const [from, to] = [UNNAMED[state.body], UNNAMED[body]];
    state.body = body;
    if (state.name === from.state) state.name = to.state;
    if (draft.states.length === 1 && draft.name === from.sheet) draft.name = to.sheet;
  };
