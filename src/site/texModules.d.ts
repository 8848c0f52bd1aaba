/** A formula file: its HTML, set at build. Give the spoken form yourself, with an aria-label. */
declare module '*.tex' {
  const html: string;
  export default html;
}
