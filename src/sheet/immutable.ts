/**
 * Edits of frozen records. A recipe changes a copy; whatever it left as it was keeps its identity, so that a
 * result computed from an unchanged branch can be cached by reference. For JSON-like values only.
 */

type Branch = Record<string, unknown>;

const isBranch = (value: unknown): value is Branch => typeof value === 'object' && value !== null;

/** A copy down to the last leaf. Several times faster than structuredClone(), which matters while a mark is dragged. */
export function copyOf<Value>(value: Value): Value;
export function copyOf(value: unknown): unknown {
  if (Array.isArray(value)) return value.map((entry: unknown) => copyOf(entry));
  if (!isBranch(value)) return value;
  // Not by assignment: a key may be “__proto__”, in a file of any origin.
  return Object.fromEntries(Object.entries(value).map(([key, entry]) => [key, copyOf(entry)]));
}

/** What tells two list entries apart: a part's id, a body mark's key, a mark's role. */
const identity = (entry: unknown): unknown =>
  isBranch(entry) ? (entry['id'] ?? entry['key'] ?? entry['role']) : undefined;

/** The entry of `before` that `entry`, now at `index`, came from: by identity first, by place second. */
function partner(before: readonly unknown[], entry: unknown, index: number): unknown {
  const wanted = identity(entry);
  const here = before[index];
  if (wanted === undefined || identity(here) === wanted) return here;
  return before.find((other) => identity(other) === wanted);
}

function shareList(before: readonly unknown[] | null, after: unknown[]): unknown {
  let same = before?.length === after.length;
  after.forEach((entry, index) => {
    const shared = shareUnchanged(before && partner(before, entry, index), entry);
    if (shared !== entry) after[index] = shared;
    if (!Object.is(shared, before?.[index])) same = false;
  });
  return same ? before : Object.freeze(after);
}

function shareBranch(before: Branch | null, after: Branch): unknown {
  const keys = Object.keys(after);
  let same = before !== null && keys.length === Object.keys(before).length;
  for (const key of keys) {
    const now = after[key];
    const then = before?.[key];
    const shared = shareUnchanged(then, now);
    if (shared !== now) after[key] = shared;
    if (!Object.is(shared, then) || (then === undefined && before !== null && !Object.hasOwn(before, key)))
      same = false;
  }
  return same ? before : Object.freeze(after);
}

/**
 * `after` with every branch that equals its counterpart in `before` replaced by that counterpart, and frozen;
 * `before` itself where nothing differs. Changes `after` in place, so it must be a copy. What is frozen in it
 * already is a branch of an earlier value that a recipe put there, and stays as it is.
 */
export function shareUnchanged<Value>(before: Value, after: Value): Value;
export function shareUnchanged(before: unknown, after: unknown): unknown {
  if (Object.is(before, after) || !isBranch(after) || Object.isFrozen(after)) return after;
  if (Array.isArray(after)) return shareList(Array.isArray(before) ? before : null, after);
  return shareBranch(isBranch(before) && !Array.isArray(before) ? before : null, after);
}

/** `value` after `recipe` changed a copy of it. Unchanged branches are the same objects as before. */
export function changed<Value>(value: Value, recipe: (draft: Value) => void): Value {
  const draft = copyOf(value);
  recipe(draft);
  return shareUnchanged(value, draft);
}
