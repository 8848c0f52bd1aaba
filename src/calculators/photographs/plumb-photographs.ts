import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property, query, state as reactive } from 'lit/decorators.js';
import { guard } from 'lit/directives/guard.js';
import {
  current,
  edit,
  newSheet,
  openDemo,
  openState,
  ready,
  redo,
  redoLabel,
  settle,
  trial,
  undo,
  undoLabel,
} from '../../sheet/bench';
import type { BuildState, MarkRole, Picture } from '../../sheet/schema';
import { COVERAGE, lengthIn } from '../../physics';
import { benchAnswer, type BenchAnswer } from '../../answer/benchAnswer';
import type { Missing } from '../../photo/readState';
import { isSide } from '../../photo/views';
import type { Warning } from '../../answer/warnings';
import { figureStyles } from '../../figures';
import { budgetStyles } from '../shared/budgetTable';
import { workingStyles } from '../shared/formula';
import { asText, fixed } from '../shared/format';
import { chevronDownIcon } from '../shared/icons';
import '../shared/panel';
import { projected } from '../shared/projector';
import { objectSentence } from '../shared/objectWords';
import { SheetController } from '../shared/sheetController';
import { baseStyles, buttonStyles, panelStyles, tableStyles } from '../shared/styles';
import '../shared/warning';
import { answerPart, stageAnswer, type AnswerParts } from './answerPart';
import { cgInHang, sideAnswer, standingEye } from './answerView';
import { cautionStyles, hangingCautions } from './cautions';
import {
  addBodyMark,
  chooseBody,
  countMark,
  inPicture as changePicture,
  placeMark,
  placeMarks,
  removeMark,
  removePicture,
  sortPicture,
} from './edits';
import './filmStrip';
import type { FilmStrip, Sorting, StripEvent, StripPicture } from './filmStrip';
import { BlurWatch } from './finder/blur';
import { blurWarning } from './finder/blurWarning';
import { EdgeFinder, type MovedBy } from './finder/edgeFinder';
import { edgesSwitch, finderNote, finderNoteStyles } from './finder/finderNote';
import { withFindings } from './finder/finderScene';
import { pixelsPerMmIn } from './finder/pictureScale';
import { foldStyles, type FoldMemory } from './foldParts';
import { givensPart } from './givensPart';
import { rowId } from './givenRow';
import { inHandPart, inHandStyles } from './inHandPart';
import { invitation, invitationStyles } from './invitation';
import { keysFold } from './keysFold';
import './markingSurface';
import type { MarkingSurface, SurfaceEvent, SurfaceMark, SurfaceScene } from './markingSurface';
import { MarkDrag } from './markDrag';
import { Nearness } from './nearness';
import { nextPicture, nextStep, nextStepStyles, timeToHang } from './nextStep';
import './nudgePad';
import type { NudgeDetail } from './nudgePad';
import type { OfferedMark } from './offeredMarks';
import { offerPart, offerStyles } from './offerPart';
import { Offers } from './offers';
import { photographsStyles } from './photographs.styles';
import { PictureIntake, pictureIntakeStyles } from './pictureIntake';
import { PictureShelf, type ShelvedPicture } from './pictureShelf';
import { pointsList, pointsListStyles } from './pointsList';
import { progressPart, progressStyles, showInHand } from './progressPart';
import { printedFigure, printedGivens, printedStyles } from './printedPart';
import { registrationTable, registrationTableStyles } from './registrationTable';
import {
  firstToMark,
  markingProgress,
  mirrored,
  MOST_BODY_MARKS,
  nextRole,
  openSteps,
  pictureCaption,
  pictureName,
  roleName,
  rolesOf,
  standingOf,
  type RoleSlot,
} from './roles';
import { pointScene, standingScene, type PictureEye } from './scenes';
import { sortNow } from './sortNow';
import { printedHang, smallestPathStyles } from './smallestPathPart';
import { sceneOfHang } from './smallestPathScene';
import { shownCrossing } from './smallestPathView';
import { insidePicture, type Place } from './surfaceView';
import { standingOfView, viewWords } from './views';
import { uncertaintyPart } from './uncertaintyPart';
import { lower } from './words';
import { workingPart } from './workingPart';

/** "2 files could not be read: …"; empty where all were. */
const unreadFiles = (count: number): string =>
  count === 0
    ? ''
    : `${count === 1 ? 'One file' : `${count} files`} could not be read: why stands below the pictures.`;

/** Arrow keys in a row are one step of undo as long as they follow each other within this time, ms. */
const NUDGE_PAUSE = 900;
/** A place is told to screen readers once it has stayed for this long, ms. */
const TELL_PAUSE = 350;

/**
 * Calculator E3: from photographs to a center of gravity.
 *
 * Pictures, marks and givens live in the open bench sheet; this element holds only what is in hand: the picture,
 * the mark, the fold. While a mark is dragged the sheet is tried, so that the answer follows; letting go keeps it.
 */
@customElement('plumb-photographs')
export class Photographs extends LitElement {
  @property() address = 'E3';
  @property() heading = 'Photographs to a center of gravity';

  @reactive() private pictureId: string | null = null;
  @reactive() private selected: MarkRole | null = null;
  /** A point the reader chose to place next; null: the next in order. */
  @reactive() private chosen: MarkRole | null = null;
  @reactive() private look: Place | null = null;
  @reactive() private told = '';
  @reactive() private roomy = false;
  @reactive() private saving = '';

  @query('plumb-film-strip') private readonly strip!: FilmStrip | null;
  @query('plumb-marking-surface') private readonly surface!: MarkingSurface | null;

  private readonly sheet = new SheetController(this, () => ({
    id: current.value.id,
    name: current.value.name,
    demo: current.value.demo,
    state: openState.value,
    trial: trial.value !== null,
    ready: ready.value,
  }));
  private readonly shelf = new PictureShelf(this);
  private readonly nearness = new Nearness(this);
  private readonly intake = new PictureIntake(this, (ids, problems) => this.#taken(ids, problems));
  // Worked before any element draws, so that the fit starts from the last answer for all of them.
  private readonly drag = new MarkDrag(this, () => void this.#answer(openState.peek()));
  private readonly blurWatch = new BlurWatch(this);
  private readonly finder = new EdgeFinder(this, {
    bitmapOf: (id) => {
      const shelved = this.shelf.picture(this.sheet.value.id, id);
      return shelved.kind === 'ready' ? shelved.bitmap : null;
    },
    pixelsPerMm: (picture) => this.#pixelsPerMm(picture),
    say: (words) => this.#tell(words),
  });
  readonly #folds: FoldMemory = new Map();
  #tellTimer: ReturnType<typeof setTimeout> | undefined;
  #settleTimer: ReturnType<typeof setTimeout> | undefined;
  #observer: ResizeObserver | undefined;
  #lastAnswer: BenchAnswer | undefined;
  readonly #offers = new Offers();
  #photographsOnly = new WeakMap<BuildState, BuildState>();

  static override styles = [
    baseStyles,
    buttonStyles,
    panelStyles,
    tableStyles,
    foldStyles,
    pointsListStyles,
    inHandStyles,
    finderNoteStyles,
    pictureIntakeStyles,
    cautionStyles,
    invitationStyles,
    progressStyles,
    offerStyles,
    nextStepStyles,
    budgetStyles,
    workingStyles,
    registrationTableStyles,
    figureStyles,
    smallestPathStyles,
    printedStyles,
    photographsStyles,
  ];

  override connectedCallback(): void {
    super.connectedCallback();
    this.#observer = new ResizeObserver(([entry]) => {
      this.roomy = (entry?.contentRect.width ?? 0) >= ROOMY;
    });
    this.#observer.observe(this);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#observer?.disconnect();
    clearTimeout(this.#tellTimer);
    clearTimeout(this.#settleTimer);
  }

  /** The picture in hand; the standing one where none was chosen. */
  get #picture(): Picture | null {
    const { state } = this.sheet.value;
    return (
      state.pictures.find(({ id }) => id === this.pictureId) ?? standingOf(state) ?? state.pictures[0] ?? null
    );
  }

  override render() {
    const { state, name, ready: opened } = this.sheet.value;
    // Until the sheet is open, the chapter's own text stands here.
    if (!opened) return html`<slot></slot>`;
    const picture = this.#picture;
    const answer = this.#answer(state);
    if (projected() && picture) return this.#stage(state, picture, answer);
    return html`
      <plumb-panel
        address=${this.address}
        heading=${this.heading}
        remark=${`${name}, ${lower(state.name)}`}
        @dragover=${this.intake.dragOver}
        @dragleave=${this.intake.dragLeave}
        @drop=${this.intake.dropped}
        @keydown=${this.#panelKey}
      >
        ${picture ? progressPart({ state, picture, goTo: this.#goOnWith }) : nothing}
        <div class=${picture ? 'sections' : 'sections empty'}>
          ${this.#figureCell(state, picture, answer)}
          ${
            picture
              ? html`<section class="answer-cell" aria-label="Answer">
                    ${this.#answerCell(state, answer)}
                  </section>
                  ${this.#marksCell(state, picture, answer)}`
              : nothing
          }
          <section class="givens-cell" aria-label="Givens">
            ${this.#still(() =>
              givensPart({
                state,
                picture,
                folds: this.#folds,
                redraw: () => this.requestUpdate(),
                pictureChanged: this.#pictureChanged,
                edges: edgesSwitch(this.finder),
              }),
            )}
          </section>
          <div class="printed printed-givens-cell">${this.#still(() => printedGivens(state))}</div>
          ${picture ? this.#workingCell(state, answer) : nothing}
        </div>
      </plumb-panel>
      <p class="spoken" role="status">${this.told}</p>
    `;
  }

  /** On a projected page: the picture in hand and the answer beside it. */
  #stage(state: BuildState, picture: Picture, answer: BenchAnswer): TemplateResult {
    return html`<plumb-panel address=${this.address} heading=${this.heading}>
      <div class="sections staged">
        <section class="figure-cell" aria-label="Picture">${this.#surfaceOf(state, picture, answer)}</section>
        <section class="answer-cell" aria-label="Answer">
          ${stageAnswer(this.#answerParts(state, answer))}
        </section>
      </div>
    </plumb-panel>`;
  }

  // Figure -----------------------------------------------------------------------------------------------

  #figureCell(state: BuildState, picture: Picture | null, answer: BenchAnswer): TemplateResult {
    return html`<section class="figure-cell on-pad" aria-label="Pictures">
      ${this.sheet.value.demo ? this.#ownTruck() : nothing}
      ${this.#still(
        () =>
          html`<plumb-film-strip
            class="strip"
            .pictures=${this.#strip(state)}
            .open=${picture?.id ?? null}
            .next=${nextPicture(state)}
            .busy=${this.intake.busy}
            .dropping=${this.intake.dropping}
            .body=${state.body}
            @strip=${this.#onStrip}
          ></plumb-film-strip>`,
      )}
      ${this.intake.render()} ${picture && timeToHang(state) ? hangingCautions(state.body, true) : nothing}
      ${picture ? html`${this.#surfaceOf(state, picture, answer)} ${timeToHang(state) ? nothing : hangingCautions(state.body, false)} ${this.#still(() => this.#printed(state, answer))}` : invitation(state.body, () => void openDemo(), this.#measureObject)}
    </section>`;
  }

  /** The way from the demo truck to the reader's own, where they meet it first. */
  #ownTruck(): TemplateResult {
    return html`<p class="note own-truck">
      ${this.sheet.value.name} is the demo truck.
      <button class="quiet" type="button" @click=${this.#startOwn}>Measure your own truck</button>
    </p>`;
  }

  readonly #measureObject = (): void => {
    if (!edit('Change what is measured', chooseBody('object')).ok) return;
    this.#tell('Any object is measured now. Add two pictures of it hanging.');
    void this.updateComplete.then(() => this.strip?.focusAdd(false));
  };

  /** The button pressed would otherwise remove the next picture as well. */
  readonly #pictureChanged = (what: string, removed: boolean): void => {
    this.#tell(what);
    if (!removed) return;
    void this.updateComplete.then(() => {
      const picture = this.#picture;
      if (picture) void this.strip?.focusPicture(picture.id);
      else this.strip?.focusAdd(false);
    });
  };

  readonly #startOwn = async (): Promise<void> => {
    const opened = await newSheet();
    this.told = opened.ok
      ? 'A new sheet is open. Add the standing picture and measure the wheelbase.'
      : opened.message;
    // What was pressed is gone with the demo truck: the keyboard goes on at the top, where the sheet begins.
    if (opened.ok) void this.updateComplete.then(() => this.strip?.focusAdd(false));
  };

  #strip(state: BuildState): readonly StripPicture[] {
    return state.pictures.map((picture) => {
      const shelved = this.#shelved(picture);
      const left = openSteps(state, picture).length;
      const unsorted = picture.kind === 'unsorted';
      return {
        id: picture.id,
        name: pictureName(state, picture),
        caption: captionInStrip(state, picture),
        url: shelved.kind === 'ready' ? shelved.url : null,
        status: unsorted
          ? 'to sort'
          : !picture.counted
            ? 'set aside'
            : left === 0
              ? 'marked'
              : `${left} to do`,
        open: left > 0 && picture.counted,
        counted: picture.counted,
        unsorted,
      };
    });
  }

  /** A picture's file, asked for once the calculator is near the window; decoded where it is in hand. */
  #shelved(picture: Picture, inHand = false): ShelvedPicture {
    if (!this.nearness.near) return { kind: 'reading' };
    const { id } = this.sheet.value;
    return inHand ? this.shelf.takeInHand(id, picture.id) : this.shelf.picture(id, picture.id);
  }

  #surfaceOf(state: BuildState, picture: Picture, answer: BenchAnswer): TemplateResult {
    const shelved = this.#shelved(picture, true);
    const armed = this.#armed(rolesOf(state, picture));
    const name = pictureName(state, picture);
    this.blurWatch.look(picture, shelved.kind === 'ready' ? shelved.bitmap : null);
    return html`<plumb-marking-surface
        .picture=${picture}
        .bitmap=${shelved.kind === 'ready' ? shelved.bitmap : null}
        .marks=${this.#surfaceMarks(state, picture, answer)}
        .scene=${withFindings(this.#scene(state, picture, answer), this.finder.of(picture), picture)}
        .selected=${this.selected}
        .armed=${armed}
        .name=${picture.kind === 'unsorted' ? `${name}, not sorted yet` : `${name}, picture of the ${state.body} ${picture.kind}`}
        .waiting=${shelved.kind === 'missing' ? 'The file of this picture is not in this browser. Import the sheet with its pictures, or remove this one and add it again.' : 'Reading the picture …'}
        .loupeBeside=${this.roomy}
        ?staged=${projected()}
        @surface=${this.#onSurface}
        >${
          picture.kind === 'unsorted'
            ? sortNow(state, picture, this.#sort)
            : nextStep({
                state,
                picture,
                armed,
                answer,
                choosePicture: (id) => {
                  this.#choosePicture(id);
                  this.#showSurface(null);
                },
                goTo: this.#goTo,
              })
        }</plumb-marking-surface
      >${projected() ? nothing : html`${this.#finderNote(state, picture)} ${blurWarning(picture, lower(name), this.#pixelsPerMm(picture))} ${this.#offer(state, picture)}`}`;
  }

  /** Places that another picture suggests for points not marked here yet: what they are, and how to take them. */
  #offer(state: BuildState, picture: Picture): TemplateResult | typeof nothing {
    const offer = this.#offers.of(state, picture);
    if (!offer) return nothing;
    return offerPart({
      state,
      offer,
      nameOf: ({ role }) => roleName(state, picture, role),
      inHand: offer.marks.find(({ role }) => role === this.selected) ?? null,
      accept: (marks) => this.#accept(picture, marks),
      decline: () => {
        this.#offers.decline(picture.id);
        this.selected = null;
        this.requestUpdate();
        this.#tell('Nothing is offered in this picture any more.');
        this.#showSurface(null);
      },
    });
  }

  #offeredMarks(state: BuildState, picture: Picture, slots: readonly RoleSlot[]): readonly SurfaceMark[] {
    const offer = projected() ? null : this.#offers.of(state, picture);
    return (offer?.marks ?? []).map(({ role, place }) => {
      const slot = slots.find((candidate) => candidate.role === role);
      return {
        role,
        label: slot?.label ?? '',
        name: slot?.name ?? role,
        ...place,
        counted: true,
        lookAgain: false,
        body: role.startsWith('mark '),
        offered: true,
        yields: offer?.by === 'layout',
      };
    });
  }

  #finderNote(state: BuildState, picture: Picture): TemplateResult | typeof nothing {
    const selected = picture.marks.find(({ role }) => role === this.selected)?.role ?? null;
    return finderNote({
      finder: this.finder,
      picture,
      selected,
      nameOf: (role) => roleName(state, picture, role),
      pixelsPerMm: this.#pixelsPerMm(picture),
    });
  }

  #pixelsPerMm = (picture: Picture): number | null =>
    this.#lastAnswer ? pixelsPerMmIn(this.#lastAnswer, picture) : null;

  #surfaceMarks(state: BuildState, picture: Picture, answer: BenchAnswer): readonly SurfaceMark[] {
    const slots = rolesOf(state, picture);
    const worst = answer.pictures.find(({ pictureId }) => pictureId === picture.id)?.worst ?? null;
    const offered = this.#offeredMarks(state, picture, slots);
    const own = picture.marks.flatMap((mark) => {
      const slot = slots.find(({ role }) => role === mark.role);
      if (!slot) return [];
      return [
        {
          role: mark.role,
          label: slot.label,
          name: slot.name,
          x: mark.x,
          y: mark.y,
          counted: mark.counted,
          found: mark.source === 'found',
          lookAgain: worst !== null && mark.role === `mark ${worst}`,
          body: mark.role.startsWith('mark '),
        },
      ];
    });
    return [...own, ...offered];
  }

  #armed(slots: readonly RoleSlot[]): RoleSlot | null {
    return slots.find((slot) => slot.role === this.chosen && !slot.placed) ?? nextRole(slots);
  }

  #scene(state: BuildState, picture: Picture, answer: BenchAnswer): SurfaceScene | null {
    if (picture.kind === 'hanging' || state.body === 'object') return sceneOfHang(state, answer, picture);
    if (!isSide(picture.view)) return pointScene(cgInHang(answer, picture));
    const eye = standingEye(answer, picture);
    return eye ? standingScene(sideAnswer(state, answer), eye) : null;
  }

  #printed(state: BuildState, answer: BenchAnswer): TemplateResult | typeof nothing {
    const standing = standingOf(state);
    // Without a standing picture, the hanging one that shows the answer.
    const hang = standing ? null : shownCrossing(state, this.#picture)?.pictureId;
    const shown = standing ?? state.pictures.find(({ id }) => id === hang);
    const shelved = shown ? this.#shelved(shown) : null;
    if (!shown || shelved?.kind !== 'ready') return nothing;
    if (!standing) return html`<div class="printed">${printedHang(state, answer, shown, shelved.url)}</div>`;
    return html`<div class="printed">
      ${printedFigure(standing, shelved.url, sideAnswer(state, answer), standingEye(answer, standing))}
    </div>`;
  }

  // Answer -----------------------------------------------------------------------------------------------

  /** While a mark is dragged the fit starts from the last answer, which lies close by; else from the readings. */
  #answer(state: BuildState): BenchAnswer {
    const from = this.drag.active ? this.#lastAnswer : undefined;
    const answer = benchAnswer(state, { quick: this.sheet.value.trial, ...(from ? { from } : {}) });
    if (answer.adjusted) this.#lastAnswer = answer;
    return answer;
  }

  /** The answer from photographs alone, where other readings count beside them; not while something is tried. */
  #alone(state: BuildState, answer: BenchAnswer): BenchAnswer | null {
    const others = answer.bench.readings.some(
      ({ kind }) => kind !== 'picture lines' && kind !== 'total mass',
    );
    if (this.sheet.value.trial || !others) return null;
    const known = this.#photographsOnly.get(state);
    // The mass stays: it says what share of the truck its axles are.
    const readings = state.readings.filter(({ kind }) => kind === 'total mass');
    const bare = known ?? { ...state, readings, countPartsList: false };
    this.#photographsOnly.set(state, bare);
    return benchAnswer(bare);
  }

  #answerParts(state: BuildState, answer: BenchAnswer): AnswerParts {
    return {
      state,
      answer,
      alone: this.#alone(state, answer),
      trial: this.sheet.value.trial,
      goTo: this.#goTo,
      lookAt: this.#lookAt,
      picture: this.#picture,
      choosePicture: this.#choosePicture,
      openField: (key, path) =>
        // Of a hook its place is asked for, which stands below what it is called.
        this.#openFold(
          key,
          path === ''
            ? key.startsWith('hang ')
              ? 'plumb-given'
              : 'select, plumb-given'
            : `#${CSS.escape(rowId(path))}`,
        ),
      scaleFrom: (from) =>
        edit('Change the scale', (draft) => {
          const open = draft.states.find(({ id }) => id === draft.openState);
          if (open) open.scaleFrom = from;
        }),
    };
  }

  #answerCell(state: BuildState, answer: BenchAnswer): TemplateResult {
    return html`${this.#mirrorWarning(state)} ${answerPart(this.#answerParts(state, answer))}
    ${
      answer.cg.ok && this.#drawnOn(state, answer)
        ? html`<div class="button-row save">
            <button class="button" type="button" @click=${() => this.#save(state, answer)}>
              Save the picture with the answer
            </button>
            ${this.saving ? html`<p role="status">${this.saving}</p>` : nothing}
          </div>`
        : nothing
    }`;
  }

  #mirrorWarning(state: BuildState): TemplateResult | typeof nothing {
    const standing = standingOf(state);
    if (!standing || !mirrored(standing)) return nothing;
    const other = standing.view === 'right' ? 'left' : 'right';
    return html`<plumb-bracket kind="warning" title-text="Front and rear look swapped."
      >Seen from the ${standing.view} the nose points ${standing.view}, but the front hub is marked on the
      other side.
      <button
        class="word-link"
        type="button"
        @click=${() =>
          edit('Change the side of all pictures', (draft) => {
            for (const { id } of state.pictures.filter(({ view }) => isSide(view)))
              changePicture(id, (picture) => {
                picture.view = other;
              })(draft);
          })}
      >
        All pictures show the ${other} side</button
      >, or mark the hubs again.</plumb-bracket
    >`;
  }

  #workingCell(state: BuildState, answer: BenchAnswer): TemplateResult {
    return html`<section class="working-cell" aria-label="Working">
      <details class=${this.drag.active ? 'working awaiting' : 'working'} ?open=${this.roomy}>
        <summary><span>The working</span>${chevronDownIcon}</summary>
        ${this.drag.active ? html`<p class="await">It follows when you let go of the mark.</p>` : nothing}
        ${this.#still(() => {
          const working = workingPart(state, answer);
          return working === nothing
            ? html`<p class="quiet-text">It stands here once there is an answer.</p>`
            : html`<div class="worked">${working} ${uncertaintyPart(answer)}</div>`;
        })}
      </details>
    </section>`;
  }

  /** A part that stays as it is while a mark is dragged: only the answer and the figure follow at once. */
  #still(part: () => unknown): unknown {
    return guard([this.drag.active ? DRAGGING : {}], part);
  }

  readonly #goTo = ({ picture, role, what }: Missing): void => {
    if (picture !== undefined) {
      this.#choosePicture(picture);
      if (role !== undefined) {
        this.chosen = role;
        this.#showSurface(null);
      } else this.#openFold(`hang ${picture}`, /place/.test(what) ? 'plumb-given' : 'select');
      this.#tell(`Still needed: ${what}.`);
      return;
    }
    const place = PLACES.find(({ words }) => words.test(what));
    if (place) {
      this.#openFold('dimensions', `#${rowId(place.path)}`);
    } else if (/body marks/.test(what)) this.#openFold('marks', 'button, input');
    else this.renderRoot.querySelector('plumb-film-strip')?.focusAdd();
  };

  /** Opens a fold of the givens and gives the keyboard to what is asked for in it. */
  #openFold(key: string, focus: string): void {
    this.#folds.set(key, true);
    this.requestUpdate();
    void this.updateComplete.then(() => {
      const fold = this.renderRoot.querySelector(`[data-fold="${CSS.escape(key)}"]`);
      const field = fold?.querySelector<HTMLElement>(focus);
      field?.focus();
      field?.scrollIntoView({ block: 'center' });
    });
  }

  readonly #lookAt = ({ picture, code }: Warning): void => {
    if (picture === undefined) return;
    this.#choosePicture(picture);
    const worst = this.#lastAnswer?.pictures.find(({ pictureId }) => pictureId === picture)?.worst;
    if (code === 'worst mark' && worst) this.selected = `mark ${worst}`;
    this.#showSurface(this.selected);
  };

  /** The picture on which the whole answer is drawn when it is saved: the standing one, else the one in hand. */
  #drawnOn(state: BuildState, answer: BenchAnswer): { picture: Picture; eye: PictureEye } | null {
    const picture = standingOf(state) ?? this.#picture;
    const eye = picture && isSide(picture.view) ? standingEye(answer, picture) : null;
    return picture && eye ? { picture, eye } : null;
  }

  async #save(state: BuildState, answer: BenchAnswer): Promise<void> {
    const drawn = this.#drawnOn(state, answer);
    if (!drawn || !answer.cg.ok) return;
    const { ahead, height } = answer.cg.value;
    const said = ({ value, u }: typeof ahead) =>
      asText({
        value: fixed(lengthIn(value, 'mm'), 1),
        plusMinus: fixed(COVERAGE * u * 1000, 1),
        unit: 'mm',
      });
    this.saving = 'Writing the picture …';
    const { savePicture } = await import('./savePicture');
    this.saving = await savePicture(state, drawn.picture, sideAnswer(state, answer), drawn.eye, [
      `${this.sheet.value.name}, ${lower(state.name)}${state.date ? `, ${state.date}` : ''}`,
      state.body === 'object'
        ? `Center of gravity ${objectSentence(state, answer)} ± holds 19 times in 20.`
        : `Center of gravity ${said(ahead)} ahead of the rear axle, ${said(height)} above ground. ± holds 19 times in 20.`,
    ]);
  }

  // Marks ------------------------------------------------------------------------------------------------

  #marksCell(state: BuildState, picture: Picture, answer: BenchAnswer): TemplateResult {
    const slots = rolesOf(state, picture);
    const offered = this.#offers.of(state, picture)?.marks.find(({ role }) => role === this.selected);
    const armed = this.#armed(slots);
    const mark = picture.marks.find(({ role }) => role === this.selected);
    const shelved = this.#shelved(picture);
    const scale = this.surface?.loupeScale ?? 3;
    const inHand = mark || offered ? roleName(state, picture, (mark ?? offered)?.role ?? '') : '';
    if (picture.kind === 'unsorted')
      return html`<section class="marks-cell on-pad" aria-label="Marks">
        <h4 class="section-title">Marks</h4>
        <p class="note">Say first what ${lower(pictureName(state, picture))} shows.</p>
      </section>`;
    return html`<section class="marks-cell on-pad" aria-label="Marks">
      <h4 class="section-title">Marks <span class="quiet-text">${pictureName(state, picture)}</span></h4>
      <div class=${mark || offered ? 'loupe-row' : 'loupe-row idle'}>
        <div class="loupe-place">
          <plumb-loupe
            .source=${shelved.kind === 'ready' ? shelved.bitmap : null}
            .picture=${picture}
            .place=${this.look ?? mark ?? offered?.place ?? null}
            .scale=${scale}
            .diameter=${160}
          ></plumb-loupe
          >${mark || offered || this.look ? nothing : html`<p>Press a mark to see it here, enlarged.</p>`}
        </div>
        <plumb-nudge-pad .what=${inHand} @nudge=${this.#onNudge}></plumb-nudge-pad>
      </div>
      ${
        mark
          ? inHandPart({
              picture,
              mark,
              name: inHand,
              enlarged: this.surface?.loupeEnlarges ?? 6,
              takeAway: () => this.#remove(mark.role),
            })
          : nothing
      }
      ${this.#still(() =>
        pointsList({
          picture,
          slots,
          inHand: mark ? this.selected : (armed?.role ?? null),
          open: this.roomy || openSteps(state, picture).length > 0,
          choose: this.#choosePoint,
          ...((picture.kind === 'standing' || standingOfView(state, picture.view) === null) &&
          state.bodyMarks.length < MOST_BODY_MARKS
            ? { add: () => edit('Add a body mark', addBodyMark()) }
            : {}),
        }),
      )}
      ${registrationTable(state, answer, (hang, key, counted) =>
        edit(
          `${counted ? 'Count' : 'Set aside'} mark ${key} in ${lower(pictureName(state, hang))}`,
          countMark(hang.id, `mark ${key}`, counted),
        ),
      )}
      ${keysFold()}
    </section>`;
  }

  readonly #choosePoint = (slot: RoleSlot): void => {
    if (slot.placed) {
      this.selected = slot.role;
      void this.updateComplete.then(() => this.surface?.focusMark(slot.role));
    } else {
      this.chosen = slot.role;
      this.selected = null;
      this.#tell(`${slot.name} in hand. ${slot.where}`);
      this.#showSurface(null);
    }
  };

  readonly #onNudge = (event: CustomEvent<NudgeDetail>): void => {
    const picture = this.#picture;
    if (!picture) return;
    const offered = this.#offers.of(this.sheet.value.state, picture);
    const held = offered?.marks.find(({ role }) => role === this.selected);
    const mark =
      picture.marks.find(({ role }) => role === this.selected) ??
      (held && { role: held.role, ...held.place });
    if (!mark) return;
    const { dx, dy } = event.detail;
    const place = insidePicture({ x: mark.x + dx, y: mark.y + dy }, picture);
    this.surface?.bringIntoView(place);
    this.#nudge(mark.role, place);
  };

  // Events -----------------------------------------------------------------------------------------------

  readonly #onStrip = (event: CustomEvent<StripEvent>): void => {
    const { detail } = event;
    if (detail.kind === 'choose') this.#choosePicture(detail.id);
    else if (detail.kind === 'sort') this.#sort(detail.id, detail.as);
    else void this.intake.take(detail.files);
  };

  /** Undo and redo by their usual keys, except in a field, which has an undo of its own. */
  readonly #panelKey = (event: KeyboardEvent): void => {
    const [target] = event.composedPath();
    if (!(event.ctrlKey || event.metaKey) || event.altKey || target instanceof HTMLInputElement) return;
    const key = event.key.toLowerCase();
    const back = key === 'z' && !event.shiftKey;
    if (!back && key !== 'z' && key !== 'y') return;
    const label = (back ? undoLabel : redoLabel).peek();
    if (back) undo();
    else redo();
    const done = back ? 'Undone' : 'Done again';
    this.#tell(label === null ? `Nothing to ${back ? 'undo' : 'do again'}.` : `${done}: ${label}.`);
    event.preventDefault();
  };

  #taken(ids: readonly string[], problems: readonly string[]): void {
    const [first] = ids;
    const failed = unreadFiles(problems.length);
    if (first === undefined) {
      if (failed !== '') this.#tell(failed);
      return;
    }
    this.#choosePicture(first);
    const { state } = this.sheet.value;
    const toSort = state.pictures.find(({ id, kind }) => id === first && kind === 'unsorted');
    const added = ids.length === 1 ? 'Picture added.' : `${ids.length} pictures added.`;
    const next = toSort ? `Say of each whether it shows the ${state.body} standing or hanging.` : '';
    this.#tell([added, failed, next].filter((words) => words !== '').join(' '));
    if (toSort) void this.updateComplete.then(() => this.strip?.focusPicture(first));
  }

  /** The reader says what a picture shows; the next one that nobody has sorted comes to hand, else this one. */
  readonly #sort = (id: string, as: Sorting): void => {
    const before = this.sheet.value.state.pictures.find((picture) => picture.id === id);
    if (!before) return;
    const name = pictureName(this.sheet.value.state, before);
    const done =
      as === 'left out'
        ? edit(`Leave out ${lower(name)}`, removePicture(id))
        : edit(`Sort ${lower(name)} as ${as}`, sortPicture(id, as));
    if (!done.ok) return;
    const { state } = this.sheet.value;
    const waiting = state.pictures.filter(({ kind }) => kind === 'unsorted');
    const at = state.pictures.findIndex((picture) => picture.id === id);
    const next = waiting.find((picture) => state.pictures.indexOf(picture) > at) ?? waiting[0];
    const shown = next ?? firstToMark(state) ?? this.#picture;
    if (shown) this.#choosePicture(shown.id);
    const left = waiting.length === 0 ? 'All are sorted.' : `${waiting.length} left to sort.`;
    this.#tell(`${name}: ${as}. ${left}`);
    void this.updateComplete.then(() =>
      shown ? this.strip?.focusPicture(shown.id) : this.strip?.focusAdd(),
    );
  };

  /** From the line of progress: to a picture, its next point in hand. */
  readonly #goOnWith = (picture: Picture, next: RoleSlot | null): void => {
    this.#choosePicture(picture.id);
    this.chosen = next?.role ?? null;
    if (next) this.#tell(`${next.name} in hand. ${next.where}`);
    if (picture.kind === 'unsorted')
      void this.updateComplete.then(() => this.strip?.focusPicture(picture.id));
    else this.#showSurface(null);
  };

  /** Gives the keyboard to a mark, or to the picture, and scrolls the page to it: on a phone it may be out of sight. */
  #showSurface(role: string | null): void {
    void this.updateComplete.then(async () => {
      await this.surface?.focusMark(role);
      this.surface?.scrollIntoView({ block: 'nearest' });
    });
  }

  readonly #choosePicture = (id: string): void => {
    this.drag.cancel();
    this.pictureId = id;
    this.selected = null;
    this.chosen = null;
    this.look = null;
    void this.updateComplete.then(() => showInHand(this.renderRoot));
  };

  readonly #onSurface = (event: CustomEvent<SurfaceEvent>): void => {
    const { detail } = event;
    const picture = this.#picture;
    if (!picture) return;
    switch (detail.kind) {
      case 'place':
        this.#place(picture, detail.place, detail.by === 'pointer' ? 'pointer' : 'steps');
        return;
      case 'accept':
        this.#acceptPressed(picture, detail);
        return;
      case 'drag':
        this.drag.over(picture.id, detail.role, detail.place);
        return;
      case 'drop':
        this.#drop(picture, detail.role, detail.place);
        return;
      case 'cancel':
        this.drag.cancel();
        this.#tell('Back where it was.');
        return;
      case 'nudge':
        this.#nudge(detail.role, detail.place);
        return;
      case 'select':
        if (this.selected !== detail.role) {
          this.selected = detail.role;
          this.look = null;
          settle();
        }
        return;
      case 'remove':
        this.#remove(detail.role);
        return;
      case 'find':
        this.finder.ask(picture.id, detail.role);
        return;
      case 'look':
        this.look = detail.place;
    }
  };

  #place(picture: Picture, place: Place, by: MovedBy): void {
    const { state } = this.sheet.value;
    const slot = this.#armed(rolesOf(state, picture));
    if (!slot) return;
    this.#placeSlot(picture, slot, place, by);
  }

  #placeSlot(picture: Picture, slot: RoleSlot, place: Place, by: MovedBy): void {
    const placed = edit(`Place ${lower(slot.name)}`, placeMark(picture.id, slot.role, place));
    if (!placed.ok) return;
    this.#offers.marked(picture.id);
    this.chosen = null;
    this.selected = slot.role;
    this.look = null;
    this.#tellPlace(slot.name, place, picture.id);
    this.finder.moved(picture.id, slot.role, by);
    void this.updateComplete.then(() => this.surface?.focusMark(slot.role));
  }

  /** Marks that were offered become marks, where they were offered, as one step of undo. */
  #accept(picture: Picture, marks: readonly OfferedMark[]): void {
    const [first] = marks;
    if (!first) return;
    const { state } = this.sheet.value;
    const name = roleName(state, picture, first.role);
    const what = marks.length === 1 ? lower(name) : `${marks.length} offered marks`;
    if (!edit(`Accept ${what}`, placeMarks(picture.id, marks)).ok) return;
    this.#offers.marked(picture.id);
    this.chosen = null;
    this.selected = first.role;
    this.look = null;
    if (marks.length === 1) this.#tellPlace(name, first.place, picture.id);
    else this.#tell(`${marks.length} marks accepted. Look at each in the loupe.`);
    for (const { role } of marks) this.finder.moved(picture.id, role, 'pointer');
    void this.updateComplete.then(() => this.surface?.focusMark(first.role));
  }

  /**
   * A press at an offered mark places that point where it was pressed. As long as the offer is only a layout from
   * elsewhere, a mark lying there says nothing of what the reader points at: the point in hand is meant.
   */
  #acceptPressed(picture: Picture, { role, place, exactly }: SurfaceEvent & { kind: 'accept' }): void {
    const { state } = this.sheet.value;
    const offer = this.#offers.of(state, picture);
    const offered = offer?.marks.find((mark) => mark.role === role);
    const slot = rolesOf(state, picture).find((candidate) => candidate.role === role);
    if (!offer || !offered || !slot) return;
    if (exactly) this.#accept(picture, [offered]);
    else if (offer.by === 'similarity') this.#placeSlot(picture, slot, place, 'pointer');
    else this.#place(picture, place, 'pointer');
  }

  #drop(picture: Picture, role: MarkRole, place: Place): void {
    const name = roleName(this.sheet.value.state, picture, role);
    const known = this.sheet.value.state.pictures.some(
      ({ id, marks }) => id === picture.id && marks.some((mark) => mark.role === role),
    );
    this.drag.drop(`${known ? 'Move' : 'Place'} ${lower(name)}`, picture.id, role, place);
    this.#offers.marked(picture.id);
    this.#tellPlace(name, place, picture.id);
    this.finder.moved(picture.id, role, 'pointer');
  }

  #nudge(role: MarkRole, place: Place): void {
    const picture = this.#picture;
    if (!picture) return;
    const name = roleName(this.sheet.value.state, picture, role);
    edit(`Move ${lower(name)}`, placeMark(picture.id, role, place), `nudge ${picture.id} ${role}`);
    this.#offers.marked(picture.id);
    clearTimeout(this.#settleTimer);
    this.#settleTimer = setTimeout(settle, NUDGE_PAUSE);
    this.#tellPlace(name, place);
    this.finder.moved(picture.id, role, 'steps');
  }

  #remove(role: MarkRole): void {
    const picture = this.#picture;
    if (!picture) return;
    const name = roleName(this.sheet.value.state, picture, role);
    if (!picture.marks.some((mark) => mark.role === role)) return;
    edit(`Take away ${lower(name)}`, removeMark(picture.id, role));
    this.selected = null;
    this.chosen = role;
    this.#tell(`${name} taken away.`);
    void this.updateComplete.then(() => this.surface?.focusMark(null));
  }

  #tellPlace(name: string, place: Place, pictureId = ''): void {
    this.#tell(`${name}, x ${place.x.toFixed(1)}, y ${place.y.toFixed(1)} pixels${this.#howFar(pictureId)}`);
  }

  /** ". Hang 1: 3 of 6", after a mark was placed in a picture. */
  #howFar(pictureId: string): string {
    const { state } = this.sheet.value;
    const picture = state.pictures.find(({ id }) => id === pictureId);
    if (!picture) return '';
    const { placed, needed } = markingProgress(state, picture);
    const words = placed === needed ? `all ${needed} marked` : `${placed} of ${needed}`;
    return `. ${pictureName(state, picture)}: ${words}.`;
  }

  /** Says something to screen readers, once it has stopped changing. */
  #tell(words: string): void {
    clearTimeout(this.#tellTimer);
    this.#tellTimer = setTimeout(() => {
      this.told = words;
    }, TELL_PAUSE);
  }
}

/** Where what is missing of the truck itself is typed, by the words it is asked for with. */
const PLACES: readonly { readonly words: RegExp; readonly path: string }[] = [
  { words: /wheelbase/, path: 'dimensions/wheelbase' },
  { words: /rear track/, path: 'dimensions/rearTrack' },
  { words: /front track/, path: 'dimensions/frontTrack' },
  { words: /radi/, path: 'dimensions/rearTireRadius' },
  { words: /distance/, path: 'scaleDistance' },
];

/** A picture's caption, and its view where it is not from the side. */
const captionInStrip = (state: BuildState, picture: Picture): string =>
  [
    pictureCaption(state, picture),
    picture.kind === 'hanging' && !isSide(picture.view) ? `from ${viewWords(picture.view)}` : '',
  ]
    .filter(Boolean)
    .join(', ');

const DRAGGING = {};

/** Width from which the loupe stands beside the picture, px: the three-column layout of the styles. */
const ROOMY = 992;

declare global {
  interface HTMLElementTagNameMap {
    'plumb-photographs': Photographs;
  }
}
