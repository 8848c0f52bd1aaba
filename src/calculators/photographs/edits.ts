import { emptyBodyMark, emptyHook, emptyPicture } from '../../sheet/empty';
import type { BenchSheet, BuildState, Hook, Mark, MarkRole, Picture } from '../../sheet/schema';
import { hangsOf } from '../../sheet/hangs';
import { BODY_MARK_KEYS, standingOf } from './roles';
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
 * Adds a picture that has just been stored. The first one of a state is the standing picture, every further one
 * a hang from a hook of its own; a state without body marks gets three to look for, since two give no check.
 */
export const addPicture = (id: string, kind: Picture['kind'], width: number, height: number): SheetRecipe =>
  inState((state) => {
    const picture: Picture = { ...emptyPicture(kind, width, height), id };
    const like = standingOf(state) ?? hangsOf(state)[0];
    if (like) Object.assign(picture, { view: like.view, distance: structuredClone(like.distance) });
    if (kind === 'hanging') {
      picture.suspension = hangsOf(state).at(-1)?.suspension ?? 'locked';
      const unused = state.hooks.find((hook) => !state.pictures.some((other) => other.hook === hook.id));
      const hook = unused ?? emptyHook();
      if (!unused) state.hooks.push(hook);
      picture.hook = hook.id;
    }
    state.pictures.push(picture);
    if (state.bodyMarks.length === 0)
      state.bodyMarks.push(...['A', 'B', 'C'].map((key) => emptyBodyMark(key)));
  });

/** Takes a picture out, and the hook made for it where nothing was typed for that hook and nothing else uses it. */
export const removePicture = (id: string): SheetRecipe =>
  inPicture(id, (picture, state) => {
    state.pictures = state.pictures.filter((other) => other.id !== id);
    const hook = state.hooks.find((candidate) => candidate.id === picture.hook);
    if (!hook || state.pictures.some((other) => other.hook === hook.id)) return;
    const typed = [hook.ahead, hook.height, hook.left].some(({ text }) => text !== '');
    const marked = state.pictures.some((other) => other.marks.some(({ role }) => role === `hook ${hook.id}`));
    if (!typed && !marked && hook.name === '')
      state.hooks = state.hooks.filter((candidate) => candidate.id !== hook.id);
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
