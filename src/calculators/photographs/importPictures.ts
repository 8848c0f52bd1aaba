import { edit, openState, putPicture } from '../../sheet/bench';
import { hangsOf } from '../../sheet/hangs';
import { newId } from '../../sheet/ids';
import type { BuildState, Picture } from '../../sheet/schema';
import { decodePicture } from '../../photo/decode/decodePicture';
import type { Stage } from '../../photo/decode/index';
import { addPicture } from './edits';
import { standingOf } from './roles';

/** What became of the files a reader gave: the new pictures' ids, and a sentence for each that could not be read. */
export interface ImportOutcome {
  readonly added: readonly string[];
  readonly problems: readonly string[];
}

/**
 * Reads files one after the other and adds them to the open state. A single one is what the page asks for next;
 * several at once are for the reader to sort, since no name and no order says what they show. `signal` stops it;
 * what was added stays. `progress` is told each stage of each file, by the file's place in the list, as it begins.
 */
export async function importPictures(
  files: readonly File[],
  signal: AbortSignal,
  progress: (index: number, stage: Stage) => void,
): Promise<ImportOutcome> {
  const added: string[] = [];
  const problems: string[] = [];
  for (const [index, file] of files.entries()) {
    if (signal.aborted) break;
    const decoded = await decodePicture(file, { signal, progress: (stage) => progress(index, stage) });
    // Stopping is what the reader wanted: nothing to report.
    if (!decoded.ok && decoded.reason === 'stopped') break;
    if (!decoded.ok) {
      problems.push(decoded.message.replace(/^Picture:/, `${file.name}:`));
      continue;
    }
    const { blob, width, height, focalLength35 } = decoded.value;
    const id = newId();
    const stored = await putPicture(id, blob);
    if (!stored.ok) {
      problems.push(stored.message);
      continue;
    }
    const kind = files.length > 1 ? 'unsorted' : kindAskedFor(openState.peek());
    const label = kind === 'unsorted' ? 'Add a picture' : `Add ${kind} picture`;
    const outcome = edit(label, addPicture(id, kind, width, height, focalLength35));
    if (outcome.ok) added.push(id);
    else problems.push(outcome.message);
  }
  return { added, problems };
}

/** What the next single picture shows, by what the page asks for; 'unsorted' where that may be among others. */
function kindAskedFor(state: BuildState): Picture['kind'] {
  if (state.body === 'object' || standingOf(state)) return 'hanging';
  if (state.pictures.some(({ kind }) => kind === 'unsorted')) return 'unsorted';
  // Who began by hanging it is asked for the next hang.
  return hangsOf(state).length > 0 ? 'hanging' : 'standing';
}
