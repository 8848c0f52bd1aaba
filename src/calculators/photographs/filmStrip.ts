import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { repeat } from 'lit/directives/repeat.js';
import type { EventOn } from '../shared/events';
import { baseStyles } from '../shared/styles';

/** A picture in the strip. */
export interface StripPicture {
  readonly id: string;
  readonly name: string;
  /** The reader's own name for it; '' for none. */
  readonly caption: string;
  /** Address of the picture's file, or null while it is not read. */
  readonly url: string | null;
  /** Below the name: "marked", "3 to mark", "set aside". */
  readonly status: string;
  /** true where the reader has something to do. */
  readonly open: boolean;
  readonly counted: boolean;
  /** Nobody has said yet what it shows. */
  readonly unsorted: boolean;
}

/** What the reader says of a picture that came in among others. */
export type Sorting = 'standing' | 'hanging' | 'left out';

export type StripEvent =
  | { readonly kind: 'choose'; readonly id: string }
  | { readonly kind: 'sort'; readonly id: string; readonly as: Sorting }
  | { readonly kind: 'files'; readonly files: readonly File[] };

/** Types the page can read, as the file picker takes them. */
const ACCEPT = 'image/jpeg,image/png,image/webp,image/avif,.jpg,.jpeg,.png,.webp,.avif,.heic,.heif';

/** One key sorts the picture that has the focus. */
const SORT_KEYS: Readonly<Record<string, Sorting>> = { s: 'standing', h: 'hanging', l: 'left out' };

const CHOICES: readonly { readonly as: Sorting; readonly words: string; readonly key: string }[] = [
  { as: 'standing', words: 'Standing', key: 'S' },
  { as: 'hanging', words: 'Hanging', key: 'H' },
];

/**
 * The pictures of the open state, the one in hand with an ink frame, and the place for the next: from a file, from
 * the phone's camera, by dropping or pasting (the last two are caught by the owner). A picture that came among others
 * has two large choices under it, what it shows. Asks with 'strip' events.
 */
@customElement('plumb-film-strip')
export class FilmStrip extends LitElement {
  @property({ attribute: false }) pictures: readonly StripPicture[] = [];
  @property({ attribute: false }) open: string | null = null;
  /** What the next picture would be: "Add the standing picture", "Add a third hang". */
  @property() next = '';
  /** A picture is being read. */
  @property({ type: Boolean }) busy = false;
  /** Files are held over the calculator. */
  @property({ type: Boolean }) dropping = false;
  /** What is measured, for the words over the choices. */
  @property() body: 'truck' | 'object' = 'truck';
  @state() private readonly handheld =
    typeof matchMedia === 'function' && matchMedia('(pointer: coarse)').matches;

  static override styles = [
    baseStyles,
    css`
      ol {
        display: grid;
        grid-template-columns: repeat(auto-fill, minmax(6.3rem, 1fr));
        gap: 0.7rem;
        list-style: none;
      }
      .frame {
        display: flex;
        flex-direction: column;
        width: 100%;
        height: 100%;
        padding: 0;
        font: inherit;
        color: inherit;
        text-align: start;
        background: var(--paper);
        border: 1px solid var(--rule);
        border-radius: 0;
        cursor: pointer;
      }
      .frame[aria-pressed='true'] {
        outline: 2px solid var(--ink);
        outline-offset: -1px;
      }
      .frame:focus-visible {
        outline: 3px solid var(--blue);
        outline-offset: 2px;
      }
      .thumb {
        position: relative;
        width: 100%;
        aspect-ratio: 1.6;
        overflow: hidden;
        background: var(--paper-2);
      }
      img {
        display: block;
        width: 100%;
        height: 100%;
        object-fit: cover;
      }
      .aside img {
        opacity: 0.4;
      }
      .words {
        display: block;
        padding: 0.4rem 0.6rem 0.5rem;
        line-height: 1.25;
      }
      .name {
        display: block;
        font-weight: 650;
        font-size: 0.9375rem;
        overflow-wrap: anywhere;
      }
      .aside .name {
        text-decoration: line-through;
      }
      .caption {
        display: -webkit-box;
        overflow: hidden;
        -webkit-box-orient: vertical;
        -webkit-line-clamp: 2;
      }
      .caption,
      .status {
        font-size: 0.8125rem;
        color: var(--ink-2);
      }
      .status {
        display: block;
      }
      .to-do .status {
        color: var(--ink);
        font-weight: 600;
      }
      .to-sort {
        display: flex;
        flex-direction: column;
        grid-column: span 2;
        background: var(--paper);
        border: 1.3px solid var(--ink);
      }
      .to-sort .frame {
        height: auto;
        flex: 1;
        border: 0;
      }
      .to-sort .thumb {
        background: var(--photo-ground);
      }
      /* The whole picture: what it shows is the question. */
      .to-sort img {
        object-fit: contain;
      }
      .sorts {
        display: grid;
        grid-template-columns: 1fr 1fr;
      }
      .sorts button {
        min-height: 2.75rem;
        padding: 0.3rem 0.2rem;
        font: inherit;
        font-size: 0.9375rem;
        font-weight: 640;
        color: var(--ink);
        background: var(--paper);
        border: 0;
        border-block-start: 1.3px solid var(--ink);
        border-radius: 0;
      }
      .sorts button + button {
        border-inline-start: 1.3px solid var(--ink);
      }
      .sorts .leave-out {
        grid-column: 1 / -1;
        border-inline-start: 0;
        border-block-start: 1px solid var(--hair);
        font-weight: 400;
        color: var(--ink-2);
        text-decoration: underline;
        text-decoration-thickness: 1px;
        text-underline-offset: 0.22em;
      }
      .sorts :focus-visible {
        position: relative;
        z-index: 1;
      }
      @media (hover: hover) {
        .sorts button:hover {
          background: var(--paper-2);
        }
      }
      kbd {
        margin-inline-start: 0.3rem;
        padding-inline: 0.3rem;
        font: inherit;
        font-size: 0.8125rem;
        font-weight: 400;
        color: var(--ink-2);
        border: 1px solid var(--rule);
        border-radius: 2px;
      }
      .add {
        display: flex;
        flex-direction: column;
        align-items: stretch;
        justify-content: center;
        min-height: 7rem;
        height: 100%;
        border: 1.3px dashed var(--rule);
        background: none;
      }
      .add.dropping {
        border: 2px solid var(--blue);
        background: var(--blue-w);
      }
      .add label {
        position: relative;
        display: flex;
        flex-direction: column;
        align-items: center;
        justify-content: center;
        gap: 0.35rem;
        flex: 1;
        min-height: 2.75rem;
        padding: 0.4rem 0.5rem;
        font-size: 0.9375rem;
        line-height: 1.25;
        text-align: center;
        cursor: pointer;
      }
      .add label + label {
        border-block-start: 1px dashed var(--rule);
      }
      .add label:has(:focus-visible) {
        outline: 3px solid var(--blue);
        outline-offset: 2px;
      }
      .add input {
        position: absolute;
        inset: 0;
        width: 100%;
        height: 100%;
        opacity: 0;
        cursor: pointer;
        font-size: 1rem;
      }
      .add small {
        font-size: 0.8125rem;
        color: var(--ink-2);
      }
      @media (max-width: 40rem) {
        ol {
          grid-template-columns: repeat(auto-fill, minmax(5rem, 1fr));
          gap: 0.5rem;
        }
        li:last-child,
        .to-sort {
          grid-column: 1 / -1;
        }
        .to-sort {
          display: grid;
          grid-template-columns: minmax(0, 1fr) minmax(0, 1.25fr);
        }
        .to-sort .sorts {
          border-inline-start: 1.3px solid var(--ink);
        }
        .to-sort .sorts {
          grid-template-columns: 1fr;
        }
        .to-sort .sorts button:first-child {
          border-block-start: 0;
        }
        .to-sort .sorts button + button {
          border-inline-start: 0;
        }
        .words {
          padding-inline: 0.3rem;
        }
        .name {
          font-size: 0.875rem;
          overflow-wrap: normal;
        }
        .add {
          flex-direction: row;
          align-items: stretch;
          min-height: 3rem;
        }
        .add label {
          flex-flow: row wrap;
          column-gap: 0.5rem;
          padding-inline: 0.4rem;
        }
        .add label + label {
          border-block-start: 0;
          border-inline-start: 1px dashed var(--rule);
        }
      }
      @media print {
        :host {
          display: none;
        }
      }
    `,
  ];

  /** Gives the keyboard to the place for the next picture; `scrolled` unless it is in sight. */
  focusAdd(scrolled = true): void {
    const input = this.renderRoot.querySelector<HTMLInputElement>('input[type="file"]');
    input?.focus({ preventScroll: true });
    if (scrolled) input?.scrollIntoView({ block: 'center' });
  }

  /** Gives the keyboard to a picture. */
  async focusPicture(id: string): Promise<void> {
    await this.updateComplete;
    const frame = this.renderRoot.querySelector<HTMLElement>(`[data-picture="${CSS.escape(id)}"]`);
    frame?.focus({ preventScroll: true });
    frame?.scrollIntoView({ block: 'nearest' });
  }

  override render() {
    return html`<ol aria-label="Pictures">
      ${repeat(
        this.pictures,
        ({ id }) => id,
        (picture) => this.#frame(picture),
      )}
      <li>${this.#add()}</li>
    </ol>`;
  }

  #frame(picture: StripPicture) {
    const { id, name, caption, url, status, open, counted, unsorted } = picture;
    const classes = ['frame', open ? 'to-do' : '', counted ? '' : 'aside'].filter(Boolean).join(' ');
    return html`<li
      class=${unsorted ? 'to-sort' : ''}
      @keydown=${unsorted ? (event: KeyboardEvent) => this.#key(event, id) : nothing}
    >
      <button
        class=${classes}
        type="button"
        data-picture=${id}
        aria-pressed=${id === this.open ? 'true' : 'false'}
        aria-keyshortcuts=${unsorted ? 'S H L' : nothing}
        @click=${() => this.#ask({ kind: 'choose', id })}
      >
        <span class="thumb">${url === null ? nothing : html`<img src=${url} alt="" loading="lazy" />`}</span>
        <span class="words">
          <span class="name">${name}</span>
          ${caption ? html`<span class="caption">${caption}</span>` : nothing}
          <span class="status">${status}</span>
          ${unsorted ? html`<span class="spoken">Press S for standing, H for hanging, L to leave it out.</span>` : nothing}
        </span>
      </button>
      ${unsorted ? this.#sorts(id, name) : nothing}
    </li>`;
  }

  /** What an unsorted picture shows: one press. */
  #sorts(id: string, name: string) {
    return html`<div class="sorts" role="group" aria-label="${name} shows the ${this.body}">
      ${CHOICES.map(
        ({ as, words, key }) =>
          html`<button type="button" data-sort=${as} @click=${() => this.#ask({ kind: 'sort', id, as })}>
            ${words}${this.handheld ? nothing : html`<kbd aria-hidden="true">${key}</kbd>`}<span
              class="spoken"
            >
              in ${name}</span
            >
          </button>`,
      )}
      <button
        class="leave-out"
        type="button"
        data-sort="left out"
        @click=${() => this.#ask({ kind: 'sort', id, as: 'left out' })}
      >
        Leave out<span class="spoken"> ${name}</span>
      </button>
    </div>`;
  }

  #key(event: KeyboardEvent, id: string): void {
    const as = SORT_KEYS[event.key.toLowerCase()];
    if (!as || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    this.#ask({ kind: 'sort', id, as });
  }

  #add() {
    return html`<div class="add ${this.dropping ? 'dropping' : ''}">
      <label>
        <input type="file" accept=${ACCEPT} multiple @change=${this.#chosen} />
        <svg class="icon" viewBox="0 0 20 20" aria-hidden="true">
          <path d="M3 6h3l1.2-2h5.6L14 6h3v10H3zM10 8a3 3 0 1 0 0 6 3 3 0 0 0 0-6z"></path>
        </svg>
        <span>${this.busy ? 'Reading the picture …' : this.next}</span>
        <small>${this.handheld ? '' : 'Choose, drop or paste. '}Stays on this device.</small>
      </label>
      ${
        this.handheld
          ? html`<label
              ><input type="file" accept="image/*" capture="environment" @change=${this.#chosen} /><span
                >Take it now</span
              ></label
            >`
          : nothing
      }
    </div>`;
  }

  readonly #chosen = (event: EventOn<HTMLInputElement>): void => {
    const files = [...(event.currentTarget.files ?? [])];
    // The same file may be chosen again after it was removed.
    event.currentTarget.value = '';
    if (files.length > 0) this.#ask({ kind: 'files', files });
  };

  #ask(detail: StripEvent): void {
    this.dispatchEvent(new CustomEvent<StripEvent>('strip', { detail }));
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'plumb-film-strip': FilmStrip;
  }
}
