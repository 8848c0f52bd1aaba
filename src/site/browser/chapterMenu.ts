/** The phone's chapter field: closes by Escape and by a tap outside. Opening works without this. */
export function startChapterMenu(): void {
  const menu = document.querySelector<HTMLDetailsElement>('.chapter-menu');
  if (!menu) return;
  document.addEventListener('pointerdown', (event) => {
    if (menu.open && event.target instanceof Node && !menu.contains(event.target)) menu.open = false;
  });
  menu.addEventListener('keydown', (event) => {
    if (event.key !== 'Escape' || !menu.open) return;
    menu.open = false;
    menu.querySelector('summary')?.focus();
  });
}
