import { html, type TemplateResult } from 'lit';

/** A choice of a few words, as one box of 44 px. */
export { choice } from '../../photographs/foldParts';

/** A choice whose words need a line each. */
export function longChoice<Value extends string>(
  legend: string,
  name: string,
  value: Value,
  options: readonly (readonly [Value, string])[],
  choose: (value: Value) => void,
): TemplateResult {
  return html`<fieldset class="choice">
    <legend>${legend}</legend>
    ${options.map(
      ([option, words]) =>
        html`<label class="radio"
          ><input
            type="radio"
            name=${name}
            .checked=${option === value}
            @change=${() => choose(option)}
          /><span>${words}</span></label
        >`,
    )}
  </fieldset>`;
}
