import { describe, expect, it } from 'vitest';
import { StyleClasses } from '../../src/site/styleClasses';

describe('style attributes', () => {
  it('become classes, the same declaration always the same class', () => {
    const styles = new StyleClasses();
    const html = styles.rewrite(
      '<span class="vlist" style="height:0.8em;">x</span><i style=\'height:0.8em\'/>',
    );
    const name = /class="vlist (s-[a-z0-9]+)"/.exec(html)?.[1] ?? '';

    expect(html).toBe(`<span class="vlist ${name}">x</span><i class="${name}"/>`);
    expect(styles.css()).toBe(`.${name}{height:0.8em}`);
    expect(new StyleClasses().rewrite('<b style="height:0.8em">')).toBe(`<b class="${name}">`);
  });

  it('leave text and other attributes alone', () => {
    const text = '<a href="x?style=1" title="a > b">style="no"</a>';
    expect(new StyleClasses().rewrite(text)).toBe(text);
  });
});
