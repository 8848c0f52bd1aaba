/**
 * The number text one arrow-key step away from `text`: "313.0" by 1 is "314.0". Keeps the decimal places typed,
 * or those of the step if it has more. Null when the text is no number: a key must not invent one.
 */
export function stepTyped(text: string, step: number): string | null {
  const plain = text.trim().replace(/^[−–]/u, '-').replace(',', '.');
  if (plain === '' || !Number.isFinite(Number(plain))) return null;
  const places = Math.max(decimals(plain), decimals(String(step)));
  return (Number(plain) + step).toFixed(Math.min(places, 10)).replace(/^-(?=0(\.0*)?$)/, '');
}

const decimals = (text: string): number => /\.(\d+)$/.exec(text)?.[1]?.length ?? 0;
