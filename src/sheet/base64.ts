/** Bytes taken at a time; a multiple of three, so that no padding falls inside. Long argument lists overflow. */
const CHUNK = 3 * 8192;

/** A picture as a data URL. Not by fetch(), which the pages' security policy does not allow for data URLs. */
export async function dataUrl(picture: Blob): Promise<string> {
  const bytes = new Uint8Array(await picture.arrayBuffer());
  let text = '';
  for (let start = 0; start < bytes.length; start += CHUNK)
    text += btoa(String.fromCharCode(...bytes.subarray(start, start + CHUNK)));
  return `data:${picture.type};base64,${text}`;
}

/** The picture in a base64 data URL, or null where the text is no such thing. */
export function fromDataUrl(text: string): Blob | null {
  const comma = text.indexOf(',');
  const type = /^data:(image\/(?:jpeg|png|webp));base64$/.exec(text.slice(0, comma))?.[1];
  if (type === undefined) return null;
  try {
    const raw = atob(text.slice(comma + 1));
    return new Blob([Uint8Array.from(raw, (letter) => letter.charCodeAt(0))], { type });
  } catch {
    return null;
  }
}
