/**
 * Address of the workbook's root folder, ending in a slash: pages lie at different depths, and the whole may lie
 * in any sub-folder. Each page says where by <meta name="plumb-root" content="../">.
 */
export function siteRoot(): string {
  const meta = document.querySelector<HTMLMetaElement>('meta[name="plumb-root"]');
  return new URL(meta?.content ?? './', document.baseURI).href;
}

/** Address of the demo truck's sheet. */
export const demoSheetUrl = (): string => `${siteRoot()}demo/bramble.json`;

/** Address of one of the demo truck's pictures, by picture id. */
export const demoPictureUrl = (pictureId: string): string =>
  `${siteRoot()}demo/${encodeURIComponent(pictureId)}.jpg`;
