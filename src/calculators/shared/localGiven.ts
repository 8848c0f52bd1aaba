import { html, type ReactiveControllerHost, type TemplateResult } from 'lit';
import type { Estimate, Result } from '../../physics';
import { inside, outside, type Dimension, type Kinds } from '../../sheet/dimensions';
import { readGiven, type GivenField, type GivenReason } from '../../sheet/given';
import type { Given } from '../../sheet/schema';
import './givenField';
import type { GivenEvent } from './givenField';

export interface LocalGivenOptions {
  readonly note?: string;
  readonly step?: number;
  /** Decimal places of a value set by dragging. */
  readonly decimals: number;
  /** Called after every change. */
  readonly changed?: () => void;
}

/**
 * A given that belongs to one calculator and not to the bench sheet: typed, stepped and dragged through one place.
 * While the text cannot be read, `read` says why and `number` stays at the last good value, so a handle has a place.
 */
export class LocalGiven<D extends Dimension> {
  given: Given;
  /** In `unit`. */
  #number: number;

  constructor(
    private readonly host: ReactiveControllerHost,
    readonly field: GivenField<D>,
    /** The unit handles count in; the reader may type in any other of the dimension. */
    private readonly unit: string,
    start: number,
    private readonly options: LocalGivenOptions,
  ) {
    this.#number = start;
    this.given = { text: start.toFixed(options.decimals), unit, plusMinus: '', kind: 'expanded' };
  }

  /** The value in SI, or why there is none. */
  get read(): Result<Estimate<Kinds[D]>, GivenReason> {
    return readGiven(this.given, this.field);
  }

  /** The last good value, in the unit handles count in. */
  get number(): number {
    return this.#number;
  }

  /** The last good value in SI. */
  get value(): Kinds[D] {
    const value = inside(this.field.dimension, this.#number, this.unit);
    if (value === null) throw new Error(`${this.field.label}: unit ${this.unit} does not fit its dimension`);
    return value;
  }

  /** A new value from a handle. */
  set(number: number): void {
    this.take({ ...this.given, text: number.toFixed(this.options.decimals), unit: this.unit });
  }

  take(given: Given): void {
    this.given = given;
    const { read } = this;
    if (read.ok) this.#number = outside(this.field.dimension, read.value.value, this.unit);
    this.options.changed?.();
    this.host.requestUpdate();
  }

  template(): TemplateResult {
    // An empty field is a mistake here: nothing else can stand in for its value.
    const { read } = this;
    const message = !read.ok && read.reason === 'empty' ? read.message : '';
    return html`<plumb-given
      .given=${this.given}
      .field=${this.field}
      .message=${message}
      .note=${this.options.note ?? ''}
      .step=${this.options.step ?? 0}
      ?no-plus-minus=${this.field.plusMinus === null}
      @given-input=${(event: GivenEvent) => this.take(event.detail.given)}
    ></plumb-given>`;
  }
}
