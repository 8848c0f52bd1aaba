/** The few signs of the frame, drawn in the text's color. Each stands beside a word or in a named control. */

const sign = (size: number, body: string): string =>
  `<svg class="sign" width="${size}" height="${size}" viewBox="0 0 24 24" fill="none" stroke="currentColor" stroke-width="2" aria-hidden="true" focusable="false">${body}</svg>`;

/** The quartered circle of engineering drawings: quarters upper right and lower left filled. */
export const centerOfGravitySign = sign(
  24,
  '<circle cx="12" cy="12" r="10.5"/><path d="M12 12V1.5A10.5 10.5 0 0 1 22.5 12ZM12 12v10.5A10.5 10.5 0 0 1 1.5 12Z" fill="currentColor" stroke="none"/>',
);

export const themeSign = sign(
  20,
  '<circle cx="12" cy="12" r="9"/><path d="M12 3a9 9 0 0 1 0 18Z" fill="currentColor" stroke="none"/>',
);

export const projectorSign = sign(
  22,
  '<path d="M2.5 4h19M4.5 4v11.5h15V4M12 15.5V19m-4.5 2L12 18l4.5 3" stroke-linejoin="round"/>',
);

export const chevronSign = sign(18, '<path d="m5 8.5 7 7 7-7"/>');

export const arrowSign = sign(18, '<path d="M3 12h17m-6.5-6.5L20 12l-6.5 6.5"/>');

export const tickSign =
  '<span class="tick" hidden><svg width="13" height="13" viewBox="0 0 24 24" fill="none" stroke="currentColor" stroke-width="2.4" aria-hidden="true" focusable="false"><path d="m3 13 6 6L21 5"/></svg><span class="unseen">read</span></span>';
