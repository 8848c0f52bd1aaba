import { readParts, markRead } from './readParts.ts';

/** Share of the sheet's visible height above which a part counts as the open one. */
const READING_LINE = 0.4;

/** Opens the field of the part being read and ticks the parts whose end has been on screen. */
export function startPartFields(): void {
  const fields = [...document.querySelectorAll<HTMLAnchorElement>('.letter-fields a[data-part]')];
  const parts = fields.flatMap((field) => {
    const part = document.getElementById(field.dataset['part'] ?? '');
    return part ? [{ field, part }] : [];
  });
  if (parts.length === 0) return;

  const page = location.pathname.split('/').at(-1) ?? '';
  let read = readParts(page);
  const tick = (): void => {
    for (const { field, part } of parts) {
      const sign = field.querySelector<HTMLElement>('.tick');
      if (sign) sign.hidden = !read.has(part.id);
    }
  };

  let scheduled = false;
  const update = (): void => {
    scheduled = false;
    const line = innerHeight * READING_LINE;
    const atEnd = scrollY + innerHeight >= document.documentElement.scrollHeight - 2;
    const passed = parts.filter(({ part }) => part.getBoundingClientRect().top <= line);
    const open = (atEnd && scrollY > 0 ? parts.at(-1) : passed.at(-1)) ?? parts[0];
    for (const { field, part } of parts) {
      if (part === open?.part) {
        if (field.hasAttribute('aria-current')) continue;
        field.setAttribute('aria-current', 'true');
        showInRow(field);
      } else field.removeAttribute('aria-current');
    }
    const ended = parts.filter(
      ({ part }) => part.getBoundingClientRect().bottom <= innerHeight && scrollY > 0,
    );
    if (ended.some(({ part }) => !read.has(part.id))) {
      read = markRead(
        page,
        ended.map(({ part }) => part.id),
      );
      tick();
    }
  };
  const schedule = (): void => {
    if (scheduled) return;
    scheduled = true;
    requestAnimationFrame(update);
  };
  addEventListener('scroll', schedule, { passive: true });
  addEventListener('resize', schedule);
  tick();
  update();
}

/** On a phone the letters are a row that may be wider than the screen. */
function showInRow(field: HTMLElement): void {
  const row = field.closest('ol');
  if (!row || row.scrollWidth <= row.clientWidth) return;
  row.scrollLeft = field.offsetLeft - (row.clientWidth - field.offsetWidth) / 2;
}
