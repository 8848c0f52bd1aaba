import type * as v from 'valibot';

type Key = string | number;

const singular = (name: string): string => (name.endsWith('s') ? name.slice(0, -1) : name);

/** "frontTireRadius" as a reader says it: "front tire radius". */
const words = (name: string): string => name.replace(/[A-Z]/g, (capital) => ` ${capital.toLowerCase()}`);

/** A place in the record as a reader says it: "State 1, dimensions, wheelbase, unit". */
export function placeInWords(path: readonly Key[]): string {
  const parts: string[] = [];
  for (const key of path) {
    const last = parts.at(-1);
    if (typeof key === 'number' && last !== undefined)
      parts[parts.length - 1] = `${singular(last)} ${key + 1}`;
    else parts.push(words(String(key)));
  }
  const text = parts.join(', ');
  return text === '' ? 'Bench sheet' : text[0]?.toUpperCase() + text.slice(1);
}

/** The same place as it is found in the file: states[0].dimensions.wheelbase.unit */
export function placeInFile(path: readonly Key[]): string {
  return path.reduce<string>((text, key) => {
    if (typeof key === 'number') return `${text}[${key}]`;
    if (!/^[A-Za-z_$][\w$]*$/.test(key)) return `${text}[${JSON.stringify(key)}]`;
    return text === '' ? key : `${text}.${key}`;
  }, '');
}

const shortened = (text: string): string => (text.length > 60 ? `${text.slice(0, 57)}…` : text);

/** One broken rule in the common grammar: label, rule, value given, what to do next. */
export function brokenRule(path: readonly Key[], rule: string, got: string): string {
  const place = placeInFile(path);
  const next = place === '' ? 'Choose a file that this workbook exported.' : `Look at ${place} in the file.`;
  return `${placeInWords(path)}: ${rule}; ${got}. ${next}`;
}

const atLeast = (count: string, counted: 'entries' | 'characters'): string => {
  const one = counted === 'entries' ? 'entry' : 'character';
  return `needs at least ${count} ${count === '1' ? one : counted}`;
};

function ruleOf(issue: v.BaseIssue<unknown>): string {
  const expects = (issue.expected ?? '').replaceAll('"', '');
  if (issue.type === 'strict_object' && issue.expected === 'never') return 'is not part of a bench sheet';
  if (issue.received === 'undefined') return 'needs to be there';
  const counted = Array.isArray(issue.input) ? 'entries' : 'characters';
  if (issue.type === 'max_length') return `needs at most ${expects.replace('<=', '')} ${counted}`;
  if (issue.type === 'min_length') return atLeast(expects.replace('>=', ''), counted);
  if (issue.type === 'min_value') return `needs at least ${expects.replace('>=', '')}`;
  if (issue.type === 'integer') return 'needs a whole number';
  if (issue.type === 'finite') return 'needs a finite number';
  if (issue.type === 'regex') return `needs the form ${expects}`;
  if (issue.type === 'string') return 'needs text';
  if (issue.type === 'number') return 'needs a number';
  if (issue.type === 'boolean') return 'needs true or false';
  if (issue.type === 'array') return 'needs a list';
  if (issue.type === 'strict_object' || issue.type === 'record') return 'needs a record';
  return `needs ${expects.replace(/^\(|\)$/g, '').replaceAll(' | ', ' or ')}`;
}

function received(issue: v.BaseIssue<unknown>): string {
  if (issue.received === 'undefined') return 'nothing is there';
  const { input } = issue;
  if (typeof input === 'string') return `got “${shortened(input)}”`;
  if (typeof input === 'number' || typeof input === 'boolean') return `got “${String(input)}”`;
  if (Array.isArray(input)) return `got a list of ${input.length}`;
  return `got ${issue.received.replaceAll('"', '')}`;
}

/** The path of a valibot issue as plain keys. */
export function issuePath(issue: v.BaseIssue<unknown>): Key[] {
  return (issue.path ?? []).map((item) => (typeof item.key === 'number' ? item.key : String(item.key)));
}

/** A valibot issue as a sentence for a reader. */
export function issueInWords(issue: v.BaseIssue<unknown>): string {
  return brokenRule(issuePath(issue), ruleOf(issue), received(issue));
}
