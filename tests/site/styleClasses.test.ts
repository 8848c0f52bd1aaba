import { describe, expect, it } from 'vitest';
import { StyleClasses } from '../../src/site/styleClasses';

describe('style attributes', () => {
  it('become classes, the same declaration always the same class', () => {
    const styles = new StyleClasses();
    const html = styles.rewrite(
      '<span class="vlist" style="height:0.8em;">x</span><i style=\'top:1em\'/><b style="height:0.8em">',
    );

    expect(html).toBe('<span class="vlist s0">x</span><i class="s1"/><b class="s0">');
    expect(styles.css()).toBe('.s0{height:0.8em}\n.s1{top:1em}');
  });

  it('leave text and other attributes alone', () => {
    const text = '<a href="x?style=1" title="a > b">style="no"</a>';
    expect(new StyleClasses().rewrite(text)).toBe(text);
  });
});
