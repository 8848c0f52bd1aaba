/**
 * Edits of frozen records. A recipe changes a copy; whatever it left as it was keeps its identity, so that a
 * result computed from an unchanged branch can be cached by reference.
 */

const isRecord = (value: unknown): value is object => typeof value === 'object' && value !== null;

/** What tells two list entries apart: a part's id, a body mark's key, a mark's role. */
function identity(entry: unknown): unknown {
  if (!isRecord(entry)) return undefined;
  for (const name of ['id', 'key', 'role']) {
    const value: unknown = Reflect.get(entry, name);
    if (value !== undefined) return value;
  }
  return undefined;
}

/** The entry of `before` that the entry at `index` of `after` came from, by identity first and by place second. */
function partner(before: readonly unknown[], after: readonly unknown[], index: number): unknown {
  const wanted = identity(after[index]);
  const here = before[index];
  if (wanted === undefined || identity(here) === wanted) return here;
  return before.find((entry) => identity(entry) === wanted);
}

/**
 * `after` with every branch that equals its counterpart in `before` replaced by that counterpart, and frozen;
 * `before` itself where nothing differs. Takes JSON-like values; changes `after` in place, so it must be a copy.
 */
export function shareUnchanged<Value>(before: Value, after: Value): Value {
  if (Object.is(before, after)) return before;
  if (!isRecord(after)) return after;
  const counterpart: object =
    isRecord(before) && Array.isArray(before) === Array.isArray(after) ? before : {};
  let same = isRecord(before) && Object.keys(after).length === Object.keys(before).length;
  for (const key of Object.keys(after)) {
    const now: unknown = Reflect.get(after, key);
    const place: unknown = Reflect.get(counterpart, key);
    const then =
      Array.isArray(after) && Array.isArray(counterpart) ? partner(counterpart, after, Number(key)) : place;
    const shared = shareUnchanged(then, now);
    if (shared !== now) Reflect.set(after, key, shared);
    if (!Object.is(shared, place) || !Object.hasOwn(counterpart, key)) same = false;
  }
  return same ? before : Object.freeze(after);
}

/** `value` after `recipe` changed a copy of it. Unchanged branches are the same objects as before. */
export function changed<Value>(value: Value, recipe: (draft: Value) => void): Value {
  const draft = structuredClone(value);
  recipe(draft);
  return shareUnchanged(value, draft);
}
