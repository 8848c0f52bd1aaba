/** Buttons that print the page; hidden where no script runs. */
for (const button of document.querySelectorAll<HTMLButtonElement>('button[data-print]')) {
  button.hidden = false;
  button.addEventListener('click', () => print());
}
