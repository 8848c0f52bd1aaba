/** A formula wider than its column scrolls; where it does, it can be reached and scrolled by keyboard. */
export function startWideFormulas(): void {
  const formulas = [...document.querySelectorAll<HTMLElement>('.formula')];
  const update = (): void => {
    const wide = formulas.map((formula) => formula.scrollWidth > formula.clientWidth);
    formulas.forEach((formula, index) => {
      if (wide[index]) formula.tabIndex = 0;
      else formula.removeAttribute('tabindex');
    });
  };
  update();
  addEventListener('resize', update);
  void document.fonts.ready.then(update);
}
