import {
  css,
  html,
  nothing,
  type ReactiveController,
  type ReactiveControllerHost,
  type TemplateResult,
} from 'lit';
import { hatchedBar } from '../../figures';
import type { Stage } from '../../photo/decode/index';
import '../shared/warning';
import type { ImportOutcome } from './importPictures';

/** Length of the progress bar, px. */
const BAR = 240;

/** Each stage of a file: in words, and how much of its work lies before it. */
const STAGES: Readonly<Record<Stage, { readonly words: string; readonly before: number }>> = {
  reading: { words: 'reading the file', before: 0.05 },
  decoding: { words: 'decoding', before: 0.15 },
  reducing: { words: 'reducing', before: 0.5 },
  keeping: { words: 'keeping', before: 0.85 },
};

/** Files on their way: which of them is in hand, and how far it is. */
interface Reading {
  readonly files: readonly File[];
  readonly index: number;
  readonly stage: Stage;
}

const UNREACHED =
  'Pictures: need a part of this notebook that is not loaded yet; it cannot be reached now. Go online, or start the notebook again, then choose them once more.';

/** Loaded when first needed: most visits only look at pictures that are there. */
async function readFiles(
  files: readonly File[],
  signal: AbortSignal,
  progress: (index: number, stage: Stage) => void,
): Promise<ImportOutcome> {
  const loaded = await import('./importPictures').catch(() => null);
  return loaded ? loaded.importPictures(files, signal, progress) : { added: [], problems: [UNREACHED] };
}

/** "3.4 MB", "210 kB". */
const fileSize = ({ size }: File): string =>
  size < 1e6 ? `${Math.ceil(size / 1e3)}\u00a0kB` : `${(size / 1e6).toFixed(1)}\u00a0MB`;

/**
 * New pictures on their way into the sheet, from picker, camera, drop or paste: reads them, shows how far each
 * is, can be stopped, and says of each file that could not be read what is wrong with it. `taken` is called with the
 * new pictures' ids and with what could not be read.
 */
export class PictureIntake implements ReactiveController {
  #reading: Reading | null = null;
  #problems: readonly string[] = [];
  #dropping = false;
  /** Given while others are being read: next. */
  #waiting: readonly File[] = [];
  #stop: AbortController | null = null;

  constructor(
    private readonly host: ReactiveControllerHost & HTMLElement,
    private readonly taken: (ids: readonly string[], problems: readonly string[]) => void,
  ) {
    host.addController(this);
  }

  hostConnected(): void {
    document.addEventListener('paste', this.#pasted);
  }

  hostDisconnected(): void {
    document.removeEventListener('paste', this.#pasted);
    this.#stop?.abort();
  }

  /** Pictures are being read. */
  get busy(): boolean {
    return this.#reading !== null;
  }

  /** Files are held over the calculator. */
  get dropping(): boolean {
    return this.#dropping;
  }

  /** Reads files and adds them to the open state; while others are being read, after them. */
  async take(files: readonly File[]): Promise<void> {
    if (files.length === 0) return;
    if (this.#reading) {
      this.#waiting = [...this.#waiting, ...files];
      return;
    }
    this.#problems = [];
    await this.#read(files);
  }

  async #read(files: readonly File[]): Promise<void> {
    const earlier = this.#problems;
    const stop = new AbortController();
    this.#stop = stop;
    this.#show({ files, index: 0, stage: 'reading' }, earlier);
    const { added, problems } = await readFiles(files, stop.signal, (index, stage) =>
      this.#show({ files, index, stage }, earlier),
    );
    this.#stop = null;
    const next = stop.signal.aborted ? [] : this.#waiting;
    this.#waiting = [];
    this.#show(null, [...earlier, ...problems]);
    this.taken(added, problems);
    if (next.length > 0) await this.#read(next);
  }

  /** How far the reading is, and what could not be read; nothing where neither is. */
  render(): TemplateResult | typeof nothing {
    if (!this.#reading && this.#problems.length === 0) return nothing;
    return html`<div class="intake">
      ${this.#reading ? this.#progress(this.#reading) : nothing}
      ${this.#problems.map((problem) => {
        const cut = problem.indexOf(';') + 1;
        const [title, rest] = cut > 0 ? [problem.slice(0, cut), problem.slice(cut)] : [problem, ''];
        return html`<plumb-bracket kind="warning" title-text=${title}>${rest}</plumb-bracket>`;
      })}
      ${
        this.#problems.length > 0
          ? html`<button class="quiet" type="button" @click=${this.#wasRead}>I have read it</button>`
          : nothing
      }
    </div>`;
  }

  #progress({ files, index, stage }: Reading): TemplateResult {
    const share = (index + STAGES[stage].before) / files.length;
    return html`<div class="reading">
      <svg class="figure" viewBox="0 0 ${BAR} 10" width=${BAR} height="10" aria-hidden="true">
        <rect class="reading-frame" x="0.5" y="0.5" width=${BAR - 1} height="9"></rect>
        ${hatchedBar(1, 1, (BAR - 2) * share, 8)}
      </svg>
      <p>
        <span role="status">Reading picture ${index + 1} of ${files.length}.</span>
        <button class="word-link" type="button" @click=${() => this.#stop?.abort()}>Stop</button>
      </p>
      <ol class="files">
        ${files.map((file, n) => {
          const state = n < index ? 'done' : n === index ? STAGES[stage].words : 'waits';
          return html`<li class=${n === index ? 'at-work' : ''}>
            <span class="file-name">${file.name}</span>, ${fileSize(file)}: ${state}
          </li>`;
        })}
      </ol>
    </div>`;
  }

  /** The keyboard goes on to the place for the next picture, since its button is gone. */
  readonly #wasRead = (): void => {
    this.#show(this.#reading, []);
    void this.host.updateComplete.then(() =>
      this.host.shadowRoot?.querySelector('plumb-film-strip')?.focusAdd(),
    );
  };

  readonly dragOver = (event: DragEvent): void => {
    if (!event.dataTransfer?.types.includes('Files')) return;
    event.preventDefault();
    this.#hold(true);
  };

  readonly dragLeave = (event: DragEvent): void => {
    const { relatedTarget } = event;
    if (relatedTarget instanceof Node && this.host.shadowRoot?.contains(relatedTarget)) return;
    this.#hold(false);
  };

  readonly dropped = (event: DragEvent): void => {
    this.#hold(false);
    const files = [...(event.dataTransfer?.files ?? [])];
    if (files.length === 0) return;
    event.preventDefault();
    void this.take(files);
  };

  /** A picture pasted anywhere on the page, except into a field, is meant for this calculator. */
  readonly #pasted = (event: ClipboardEvent): void => {
    const files = [...(event.clipboardData?.files ?? [])].filter(({ type }) => type.startsWith('image/'));
    const [target] = event.composedPath();
    if (files.length === 0 || target instanceof HTMLInputElement) return;
    event.preventDefault();
    void this.take(files);
  };

  #hold(dropping: boolean): void {
    if (dropping === this.#dropping) return;
    this.#dropping = dropping;
    this.host.requestUpdate();
  }

  #show(reading: Reading | null, problems: readonly string[]): void {
    this.#reading = reading;
    this.#problems = problems;
    this.host.requestUpdate();
  }
}

export const pictureIntakeStyles = css`
  .intake {
    display: grid;
    gap: 0.6rem;
    margin-block-end: 0.9rem;
  }
  /* What is read in less than 0.3 s shows nothing new. */
  .reading {
    font-size: 0.9375rem;
    animation: appear 0s 0.3s both;
  }
  .reading-frame {
    fill: none;
    stroke: var(--ink);
    stroke-width: 1;
  }
  .files {
    margin-block-start: 0.3rem;
    padding: 0;
    list-style: none;
    font-size: 0.875rem;
    color: var(--ink-2);
  }
  .files .at-work {
    color: var(--ink);
  }
  .file-name {
    overflow-wrap: anywhere;
  }
  @keyframes appear {
    from {
      visibility: hidden;
    }
    to {
      visibility: visible;
    }
  }
`;
