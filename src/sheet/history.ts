import { computed, signal, type ReadonlySignal } from '@preact/signals-core';
import type { BenchSheet } from './schema';

interface Step {
  readonly label: string;
  readonly before: BenchSheet;
  readonly after: BenchSheet;
  /** Edits in a row with the same key make one step: a drag, or typing in one field. */
  readonly mergeKey: string | undefined;
}

interface Steps {
  readonly done: readonly Step[];
  readonly undone: readonly Step[];
}

/** Sheets share what they have in common, so a step costs about as much as what it changed. */
const LONGEST = 500;

/** Undo and redo of whole sheets, for the sheet that is open. */
export class History {
  readonly #steps = signal<Steps>({ done: [], undone: [] });

  /** What undo would take back, or null. */
  readonly undoLabel: ReadonlySignal<string | null> = computed(
    () => this.#steps.value.done.at(-1)?.label ?? null,
  );
  /** What redo would bring back, or null. */
  readonly redoLabel: ReadonlySignal<string | null> = computed(
    () => this.#steps.value.undone.at(-1)?.label ?? null,
  );

  record(label: string, before: BenchSheet, after: BenchSheet, mergeKey?: string): void {
    const { done } = this.#steps.peek();
    const last = done.at(-1);
    const merges = mergeKey !== undefined && last?.mergeKey === mergeKey;
    const step: Step = { label, before: merges ? last.before : before, after, mergeKey };
    this.#steps.value = { done: [...(merges ? done.slice(0, -1) : done), step].slice(-LONGEST), undone: [] };
  }

  /** Ends a run of merged edits: the next edit is a step of its own, whatever its key. */
  settle(): void {
    const { done, undone } = this.#steps.peek();
    const last = done.at(-1);
    if (last?.mergeKey === undefined) return;
    this.#steps.value = { done: [...done.slice(0, -1), { ...last, mergeKey: undefined }], undone };
  }

  /** The sheet before the last step, or null where there is none. */
  undo(): BenchSheet | null {
    const { done, undone } = this.#steps.peek();
    const step = done.at(-1);
    if (!step) return null;
    this.#steps.value = { done: done.slice(0, -1), undone: [...undone, { ...step, mergeKey: undefined }] };
    this.settle();
    return step.before;
  }

  /** The sheet after the step last undone, or null where there is none. */
  redo(): BenchSheet | null {
    const { done, undone } = this.#steps.peek();
    const step = undone.at(-1);
    if (!step) return null;
    this.#steps.value = { done: [...done, step], undone: undone.slice(0, -1) };
    return step.after;
  }

  clear(): void {
    this.#steps.value = { done: [], undone: [] };
  }
}
