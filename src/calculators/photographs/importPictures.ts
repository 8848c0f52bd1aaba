import { edit, openState, putPicture } from '../../sheet/bench';
import { newId } from '../../sheet/ids';
import { decodePicture } from '../../photo/decode/decodePicture';
import { addPicture } from './edits';
import { standingOf } from './roles';

/** What became of the files a reader gave: the new pictures' ids, and a sentence for each that could not be read. */
export interface ImportOutcome {
  readonly added: readonly string[];
  readonly problems: readonly string[];
}

/**
 * Reads files one after the other and adds them to the open state: the first one as the standing picture where
 * there is none yet, or the one whose name says so, all others as hangs. `signal` stops it; what was added stays.
 */
export async function importPictures(
  files: readonly File[],
  signal: AbortSignal,
  progress: (done: number) => void,
): Promise<ImportOutcome> {
  const added: string[] = [];
  const problems: string[] = [];
  const named = files.findIndex(({ name }) => /stand/i.test(name));
  const first = Math.max(0, named);
  // The standing picture goes first, so that hangs take its side and camera distance over.
  const ordered = files.toSorted((a, b) => Number(b === files[first]) - Number(a === files[first]));
  for (const [index, file] of ordered.entries()) {
    progress(index);
    if (signal.aborted) break;
    const decoded = await decodePicture(file, { signal });
    // Stopping is what the reader wanted: nothing to report.
    if (!decoded.ok && decoded.reason === 'stopped') break;
    if (!decoded.ok) {
      problems.push(decoded.message.replace(/^Picture:/, `${file.name}:`));
      continue;
    }
    const { blob, width, height } = decoded.value;
    const id = newId();
    const stored = await putPicture(id, blob);
    if (!stored.ok) {
      problems.push(stored.message);
      continue;
    }
    const kind = standingOf(openState.peek()) ? 'hanging' : 'standing';
    const outcome = edit(`Add ${kind} picture`, addPicture(id, kind, width, height));
    if (outcome.ok) added.push(id);
    else problems.push(outcome.message);
  }
  return { added, problems };
}
