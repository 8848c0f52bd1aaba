/**
 * What a problem says, as data: running text with the numbers as they are shown, and relations as small trees. The page
 * sets them; the tests read them. Nothing here knows how it is drawn.
 */

/** A number in running text, as shown to the reader: "105" mm. */
export interface NumberWords {
  readonly kind: 'number';
  /** 'given' is set blue, 'worked' in ink, 'result' with the double underline. */
  readonly role: 'given' | 'worked' | 'result';
  /** With a true minus sign. */
  readonly text: string;
  /** A unit of src/sheet/dimensions.ts; '' for a plain number. */
  readonly unit: string;
}

export interface RelationWords {
  readonly kind: 'relation';
  readonly relation: Relation;
}

export type Words = readonly (string | NumberWords | RelationWords)[];

/** A relation in symbols or numbers. */
export type Relation =
  | { readonly sign: string }
  | { readonly letter: string; readonly index?: string }
  | { readonly number: NumberWords }
  | { readonly over: Relation; readonly under: Relation }
  | { readonly row: readonly Relation[] }
  | { readonly brackets: Relation }
  | { readonly squared: Relation }
  | { readonly root: Relation }
  | { readonly named: string; readonly of: Relation };

/** `value` with `decimals` places, as it stands in print. */
export const shown = (value: number, decimals: number): string => {
  const text = Math.abs(value).toFixed(decimals);
  return value < 0 && /[1-9]/.test(text) ? `−${text}` : text;
};

const numberWords =
  (role: NumberWords['role']) =>
  (value: number, decimals: number, unit = ''): NumberWords => ({
    kind: 'number',
    role,
    text: shown(value, decimals),
    unit,
  });

export const given = numberWords('given');
export const worked = numberWords('worked');
export const result = numberWords('result');

/** Running text: say`The front scale reads ${given(1350, 0, 'g')}.` */
export const say = (texts: TemplateStringsArray, ...pieces: readonly (Words[number] | Relation)[]): Words =>
  texts.flatMap((text, index): Words => {
    const piece = pieces[index];
    const rest =
      piece === undefined
        ? []
        : typeof piece === 'string' || 'kind' in piece
          ? [piece]
          : [{ kind: 'relation' as const, relation: piece }];
    return text === '' ? rest : [text, ...rest];
  });
