import type { BenchSheet, BuildState } from './schema';

/** The hook a mark's role speaks of, or null for every other role. */
export const hookOfRole = (role: string): string | null => (role.startsWith('hook ') ? role.slice(5) : null);

/** A reference that leads nowhere, or two things under one name: where it stands, and the rule it breaks. */
export interface BrokenReference {
  readonly path: readonly (string | number)[];
  readonly rule: string;
  readonly got: string;
}

const firstRepeat = (names: readonly string[]): number =>
  names.findIndex((name, index) => names.indexOf(name) < index);

function ofState(state: BuildState, at: number): BrokenReference[] {
  const broken: BrokenReference[] = [];
  const lists = {
    parts: state.parts.map((part) => part.id),
    bodyMarks: state.bodyMarks.map((mark) => mark.key),
    hooks: state.hooks.map((hook) => hook.id),
    readings: state.readings.map((reading) => reading.id),
    changes: state.changes.map((change) => change.id),
  };
  for (const [list, names] of Object.entries(lists)) {
    const repeat = firstRepeat(names);
    if (repeat < 0) continue;
    broken.push({
      path: ['states', at, list, repeat, list === 'bodyMarks' ? 'key' : 'id'],
      rule: 'needs a name of its own',
      got: names[repeat] ?? '',
    });
  }
  const known = new Set(lists.hooks);
  state.pictures.forEach((picture, index) => {
    const path = ['states', at, 'pictures', index];
    if (picture.hook !== null && !known.has(picture.hook))
      broken.push({ path: [...path, 'hook'], rule: 'needs a hook of the same state', got: picture.hook });
    picture.marks.forEach((mark, place) => {
      const hook = hookOfRole(mark.role);
      if (hook !== null && !known.has(hook))
        broken.push({
          path: [...path, 'marks', place, 'role'],
          rule: 'needs a hook of the same state',
          got: mark.role,
        });
    });
    const twice = firstRepeat(picture.marks.map((mark) => mark.role));
    if (twice >= 0)
      broken.push({
        path: [...path, 'marks', twice, 'role'],
        rule: 'needs one mark of a kind in a picture',
        got: picture.marks[twice]?.role ?? '',
      });
  });
  state.readings.forEach((reading, index) => {
    if (reading.kind === 'hang line' && reading.hook !== null && !known.has(reading.hook))
      broken.push({
        path: ['states', at, 'readings', index, 'hook'],
        rule: 'needs a hook of the same state',
        got: reading.hook,
      });
  });
  return broken;
}

/** Everything in a sheet that refers to nothing, or that shares an id it must not share. Empty: all is well. */
export function brokenReferences(sheet: BenchSheet): BrokenReference[] {
  const broken: BrokenReference[] = [];
  const states = sheet.states.map((state) => state.id);
  if (!states.includes(sheet.openState))
    broken.push({ path: ['openState'], rule: 'needs the id of one of the states', got: sheet.openState });
  const repeat = firstRepeat(states);
  if (repeat >= 0)
    broken.push({
      path: ['states', repeat, 'id'],
      rule: 'needs a name of its own',
      got: states[repeat] ?? '',
    });
  const seen = new Set<string>();
  sheet.states.forEach((state, at) => {
    state.pictures.forEach((picture, index) => {
      // Picture files are stored by this id, whichever state the picture belongs to.
      if (seen.has(picture.id))
        broken.push({
          path: ['states', at, 'pictures', index, 'id'],
          rule: 'needs a name of its own in the whole sheet',
          got: picture.id,
        });
      seen.add(picture.id);
    });
    broken.push(...ofState(state, at));
  });
  return broken;
}

/**
 * After an edit removed something: forgets what still pointed at it. Changes the draft. A removed hook leaves
 * its pictures and hang lines without hook and takes its marks along; a removed open state opens the first one.
 */
export function mendReferences(draft: BenchSheet): void {
  const first = draft.states[0];
  if (first && !draft.states.some((state) => state.id === draft.openState)) draft.openState = first.id;
  for (const state of draft.states) {
    const known = new Set(state.hooks.map((hook) => hook.id));
    for (const picture of state.pictures) {
      if (picture.hook !== null && !known.has(picture.hook)) picture.hook = null;
      if (
        picture.marks.some(
          (mark) => !known.has(hookOfRole(mark.role) ?? '') && hookOfRole(mark.role) !== null,
        )
      )
        picture.marks = picture.marks.filter((mark) => {
          const hook = hookOfRole(mark.role);
          return hook === null || known.has(hook);
        });
    }
    for (const reading of state.readings)
      if (reading.kind === 'hang line' && reading.hook !== null && !known.has(reading.hook))
        reading.hook = null;
  }
}
