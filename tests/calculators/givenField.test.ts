// @vitest-environment happy-dom
import { afterEach, describe, expect, test } from 'vitest';
import '../../src/calculators/shared/givenField';
import type { GivenEvent, GivenField } from '../../src/calculators/shared/givenField';
import { FIELDS } from '../../src/sheet/fields';
import type { Given } from '../../src/sheet/schema';

const given = (text: string, more: Partial<Given> = {}): Given => ({
  text,
  unit: 'mm',
  plusMinus: '',
  kind: 'expanded',
  ...more,
});

async function field(properties: Partial<GivenField>): Promise<GivenField> {
  const made = document.createElement('plumb-given');
  Object.assign(made, properties);
  document.body.append(made);
  await made.updateComplete;
  return made;
}

function part<Kind extends Element>(of: GivenField, selector: string, kind: new () => Kind): Kind {
  const found = of.shadowRoot?.querySelector(selector);
  if (!(found instanceof kind)) throw new Error(`no ${selector}`);
  return found;
}

const number = (of: GivenField): HTMLInputElement => part(of, '#number', HTMLInputElement);
const message = (of: GivenField): string =>
  of.shadowRoot?.querySelector('#number-message')?.textContent ?? '';

/** Types into the number and leaves it, as a browser reports it. */
async function type(into: GivenField, text: string): Promise<void> {
  const input = number(into);
  input.value = text;
  input.dispatchEvent(new Event('input', { bubbles: true, composed: true }));
  input.dispatchEvent(new Event('change', { bubbles: true }));
  await into.updateComplete;
}

afterEach(() => document.body.replaceChildren());

describe('a given field', () => {
  test('takes label, units, hint and default ± from the sheet’s rule', async () => {
    const wheelbase = await field({ given: given(''), field: FIELDS.wheelbase });
    expect(part(wheelbase, 'label', HTMLLabelElement).textContent).toBe('Wheelbase');
    expect(number(wheelbase).placeholder).toBe('often 313');
    expect(part(wheelbase, '.plus-minus input', HTMLInputElement).placeholder).toBe('1');
    expect([...part(wheelbase, 'select.unit', HTMLSelectElement).options].map(({ value }) => value)).toEqual([
      'mm',
      'cm',
      'm',
      'in',
    ]);
  });

  test('an empty field is no mistake', async () => {
    const wheelbase = await field({ given: given(''), field: FIELDS.wheelbase });
    expect(message(wheelbase)).toBe('');
    expect(number(wheelbase).getAttribute('aria-invalid')).toBeNull();
  });

  test('keeps text that cannot be read, and says at the field what is wrong and what to do', async () => {
    const wheelbase = await field({ given: given('313'), field: FIELDS.wheelbase });
    await type(wheelbase, '−3');
    expect(number(wheelbase).value).toBe('−3');
    expect(message(wheelbase)).toBe(
      'Wheelbase: needs a length above zero; got “−3 mm”. Measure hub to hub, often 313 mm.',
    );
    expect(number(wheelbase).getAttribute('aria-invalid')).toBe('true');
    expect(number(wheelbase).getAttribute('aria-describedby')).toContain('number-message');
  });

  test('a unit typed behind the number moves to its place; a ± typed before keeps its own', async () => {
    const wheelbase = await field({ given: given('313', { plusMinus: '1' }), field: FIELDS.wheelbase });
    await type(wheelbase, '12.3 in');
    expect(wheelbase.given).toMatchObject({ text: '12.3', unit: 'in', plusMinus: '1 mm' });
  });

  test('a unit of another kind stays in the text', async () => {
    const wheelbase = await field({ given: given('313'), field: FIELDS.wheelbase });
    await type(wheelbase, '12 kg');
    expect(wheelbase.given).toMatchObject({ text: '12 kg', unit: 'mm' });
    expect(message(wheelbase)).toContain('got “12 kg”');
  });

  test('choosing a unit does not convert the number', async () => {
    const wheelbase = await field({ given: given('12.3'), field: FIELDS.wheelbase });
    const unit = part(wheelbase, 'select.unit', HTMLSelectElement);
    unit.value = 'in';
    unit.dispatchEvent(new Event('change', { bubbles: true }));
    expect(wheelbase.given).toMatchObject({ text: '12.3', unit: 'in' });
  });

  test.each([
    ['ArrowUp', false, '314.0'],
    ['ArrowDown', false, '312.0'],
    ['ArrowUp', true, '323.0'],
    ['PageUp', false, '323.0'],
    ['PageDown', false, '303.0'],
  ])('%s (shift: %s) makes 313.0 to %s', async (key, shiftKey, after) => {
    const wheelbase = await field({ given: given('313.0'), field: FIELDS.wheelbase });
    number(wheelbase).dispatchEvent(new KeyboardEvent('keydown', { key, shiftKey, bubbles: true }));
    expect(wheelbase.given.text).toBe(after);
  });

  test('tells every change while typing, and once more when done', async () => {
    const told: string[] = [];
    const wheelbase = await field({ given: given(''), field: FIELDS.wheelbase });
    wheelbase.addEventListener('given-input', ({ detail }: GivenEvent) =>
      told.push(`input ${detail.given.text}`),
    );
    wheelbase.addEventListener('given-change', ({ detail }: GivenEvent) =>
      told.push(`change ${detail.given.text}`),
    );
    await type(wheelbase, '313');
    expect(told[0]).toBe('input 313');
    expect(told.at(-1)).toBe('change 313');
  });

  test('a message of its owner wins', async () => {
    const mass = await field({
      given: given('2490', { unit: 'g' }),
      field: FIELDS.totalMass,
      message: 'Mass: does not add up; 2940.',
    });
    expect(message(mass)).toBe('Mass: does not add up; 2940.');
  });

  test('says of a possible but unusual value that it is', async () => {
    const wheelbase = await field({ given: given('31.3'), field: FIELDS.wheelbase });
    expect(message(wheelbase)).toBe('');
    expect(wheelbase.shadowRoot?.querySelector('#note')?.textContent).toContain('unusual');
  });
});
