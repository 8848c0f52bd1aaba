/**
 * Style attributes rewritten into classes, since the content security policy allows no inline style.
 *
 * One collection holds every declaration met while the notebook is rendered; the same declaration always gets the
 * same class, so the result does not depend on the order of the chapters.
 */
export class StyleClasses {
  private readonly rules = new Map<string, string>();

  /** HTML with each style="…" replaced by a class; everything else untouched. */
  rewrite(html: string): string {
    return html.replace(
      /<([a-zA-Z][\w-]*)((?:\s+[\w:.-]+(?:=(?:"[^"]*"|'[^']*'))?)*)\s*(\/?)>/g,
      (tag: string, name: string, attributes: string, end: string) =>
        this.rewriteTag(tag, name, attributes, end),
    );
  }

  /** The collected rules, sorted. */
  css(): string {
    return [...this.rules]
      .map(([name, style]) => `.${name}{${style}}`)
      .sort()
      .join('\n');
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
    const name = `s-${hash(declaration)}`;
    this.rules.set(name, declaration);
    return name;
  }
}

/** FNV-1a, 32 bits, as base 36: short and stable names, not for security. */
function hash(text: string): string {
  let value = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) value = Math.imul(value ^ text.charCodeAt(i), 0x01000193) >>> 0;
  return value.toString(36);
}
