/**
 * Style attributes rewritten into classes, since the content security policy allows no inline style.
 *
 * One collection holds every declaration met while the notebook is rendered; the same declaration always gets the
 * same class.
 */
export class StyleClasses {
  /** Declaration to class name. */
  private readonly classes = new Map<string, string>();

  /** HTML with each style="…" replaced by a class; everything else untouched. */
  rewrite(html: string): string {
    return html.replace(
      /<([a-zA-Z][\w-]*)((?:\s+[\w:.-]+(?:=(?:"[^"]*"|'[^']*'))?)*)\s*(\/?)>/g,
      (tag: string, name: string, attributes: string, end: string) =>
        this.rewriteTag(tag, name, attributes, end),
    );
  }

  /** The collected rules. */
  css(): string {
    return [...this.classes].map(([style, name]) => `.${name}{${style}}`).join('\n');
  }

  private rewriteTag(tag: string, name: string, attributes: string, end: string): string {
    const style = /\sstyle=(?:"([^"]*)"|'([^']*)')/.exec(attributes);
    if (!style) return tag;
    const without = attributes.replace(style[0], '');
    const declaration = (style[1] ?? style[2] ?? '').trim().replace(/;$/, '');
    if (!declaration) return `<${name}${without}${end}>`;
    const added = this.classFor(declaration);
    const classes = /\sclass="([^"]*)"/.exec(without);
    const withClass = classes
      ? without.replace(classes[0], ` class="${`${classes[1] ?? ''} ${added}`.trim()}"`)
      : `${without} class="${added}"`;
    return `<${name}${withClass}${end}>`;
  }

  private classFor(declaration: string): string {
    // Numbered by first use: short names repeat well when the page is compressed.
    const known = this.classes.get(declaration) ?? `s${this.classes.size}`;
    this.classes.set(declaration, known);
    return known;
  }
}
