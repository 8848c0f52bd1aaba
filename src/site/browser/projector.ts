/**
 * Projector mode: one figure, large, with its steps along the bottom. "?projector" shows the first calculator of the
 * page, "?projector#e3" that one.
 *
 * A calculator may offer steps of its own ("Predict", "Turn the dial", "Show the answer") by the two members below;
 * without them the steps are the addresses of the page's calculators.
 */
export interface ProjectorFigure {
  readonly projectorSteps: readonly string[];
  projectorStep: number;
}

export function startProjector(): void {
  const figures = [...document.querySelectorAll<HTMLElement>('.calculator[address]')];
  const button = document.querySelector<HTMLButtonElement>('.projector-button');
  const page = document.documentElement;
  if (figures.length === 0) {
    delete page.dataset['projector'];
    return;
  }
  if (button) {
    button.hidden = false;
    button.addEventListener('click', () => {
      const top =
        figures.find((figure) => figure.getBoundingClientRect().bottom > innerHeight * 0.4) ?? figures[0];
      location.href = `${location.pathname}?projector#${top?.id ?? ''}`;
    });
  }
  if (page.dataset['projector'] !== undefined) new Stage(figures).open(location.hash.slice(1));
}

/** The projected page: a head, one figure, the steps. */
class Stage {
  private readonly address = element('b', 'stage-address');
  private readonly heading = element('span', 'stage-heading');
  private readonly steps = element('div', 'stage-steps');
  private figure: HTMLElement | undefined;

  constructor(private readonly figures: readonly HTMLElement[]) {
    const head = element('div', 'stage-head');
    const title = element('h2', 'stage-title');
    title.append(this.address, ' ', this.heading);
    head.append(
      title,
      this.button('Leave the projector', () => this.leave(), 'stage-leave'),
    );
    const foot = element('nav', 'stage-foot');
    foot.setAttribute('aria-label', 'Steps');
    foot.append(this.steps, this.chapterName());
    document.querySelector('main')?.before(head);
    document.querySelector('main')?.after(foot);
    addEventListener('hashchange', () => this.open(location.hash.slice(1)));
    addEventListener('keydown', (event) => this.key(event));
  }

  open(id: string): void {
    const figure = this.figures.find((candidate) => candidate.id === id) ?? this.figures[0];
    if (!figure) return;
    this.figure = figure;
    for (const other of this.figures) other.toggleAttribute('projected', other === figure);
    for (const block of document.querySelectorAll('.part'))
      block.toggleAttribute('projected', block.contains(figure));
    this.address.textContent = figure.getAttribute('address') ?? '';
    this.heading.textContent = figure.getAttribute('heading') ?? '';
    void customElements.whenDefined(figure.localName).then(() => this.showSteps());
    this.showSteps();
  }

  private showSteps(): void {
    const figure = this.figure;
    const own = figure && hasSteps(figure) ? figure : null;
    const names = own ? own.projectorSteps : this.figures.map((other) => other.getAttribute('address') ?? '');
    const current = own ? own.projectorStep : this.figures.findIndex((other) => other === figure);
    this.steps.replaceChildren(
      ...names.map((name, index) => {
        const step = this.button(name, () => this.take(index), 'stage-step');
        if (own) {
          const number = element('span', 'stage-number');
          number.textContent = String(index + 1);
          step.prepend(number, ' ');
        }
        if (index === current) step.setAttribute('aria-current', 'step');
        return step;
      }),
    );
  }

  private take(index: number): void {
    const figure = this.figure;
    if (figure && hasSteps(figure)) {
      figure.projectorStep = index;
      this.showSteps();
    } else {
      const next = this.figures[index];
      if (next) location.hash = next.id;
    }
    this.steps.querySelectorAll<HTMLElement>('button')[index]?.focus();
  }

  private key(event: KeyboardEvent): void {
    if (event.defaultPrevented || event.ctrlKey || event.metaKey || event.altKey || isTyping(event)) return;
    const digit = /^[1-9]$/.test(event.key) ? Number(event.key) - 1 : -1;
    if (digit >= 0 && digit < this.steps.childElementCount) this.take(digit);
    else if (event.key === 'Escape') this.leave();
  }

  private leave(): void {
    location.href = `${location.pathname}#${this.figure?.id ?? ''}`;
  }

  private button(words: string, act: () => void, className: string): HTMLButtonElement {
    const button = document.createElement('button');
    button.type = 'button';
    button.className = className;
    button.textContent = words;
    button.addEventListener('click', act);
    return button;
  }

  private chapterName(): HTMLElement {
    const name = element('span', 'stage-chapter');
    name.textContent = document.title.replace(/ · [^·]*$/, '');
    return name;
  }
}

function element(tag: string, className: string): HTMLElement {
  const made = document.createElement(tag);
  made.className = className;
  return made;
}

function hasSteps(figure: HTMLElement): figure is HTMLElement & ProjectorFigure {
  return 'projectorSteps' in figure && Array.isArray(figure.projectorSteps) && 'projectorStep' in figure;
}

function isTyping(event: KeyboardEvent): boolean {
  const target = event.composedPath()[0];
  return (
    target instanceof HTMLElement &&
    (target.isContentEditable || /^(INPUT|TEXTAREA|SELECT)$/.test(target.tagName))
  );
}
