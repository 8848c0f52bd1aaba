/** The button that changes between the light and the dark drawing. The choice is kept; without one the system decides. */
export function startThemeButton(): void {
  const button = document.querySelector<HTMLButtonElement>('.theme-button');
  if (!button) return;
  const page = document.documentElement;
  const system = matchMedia('(prefers-color-scheme: dark)');
  const isDark = (): boolean => (page.dataset['theme'] ? page.dataset['theme'] === 'dark' : system.matches);
  const name = (): void =>
    button.setAttribute(
      'aria-label',
      isDark() ? 'Change to the light drawing' : 'Change to the dark drawing',
    );

  button.hidden = false;
  name();
  system.addEventListener('change', name);
  button.addEventListener('click', () => {
    const next = isDark() ? 'light' : 'dark';
    page.dataset['theme'] = next;
    try {
      localStorage.setItem('plumb-theme', next);
    } catch {
      // Where storage is forbidden the choice lasts for this page.
    }
    name();
  });
}
