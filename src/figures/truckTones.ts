import { css } from 'lit';

/**
 * The truck's own tones, light and dark. The page's style sheet may define the same names on :root; an element
 * that shows the truck on a page without them adds this sheet to its static styles. Dark is a drawing of its
 * own: dark fills with light lines, not an inversion. light-dark() follows the page's color-scheme.
 */
export const truckTones = css`
  :host {
    --k-line: light-dark(#2e4347, #c3cfcb);
    --k-line2: light-dark(#64777a, #7d8e8d);
    --k-tire: light-dark(#738180, #2a3839);
    --k-lug: light-dark(#8c9997, #3b4c4d);
    --k-lug2: light-dark(#82908e, #324244);
    --k-side: light-dark(#82908f, #324244);
    --k-ring: light-dark(#c9d1ce, #42565a);
    --k-rim: light-dark(#e4e8e4, #5b7072);
    --k-rimd: light-dark(#5e6e6f, #152225);
    --k-bolt: light-dark(#f3f4f0, #93a4a3);
    --k-dark: light-dark(#4a5b5d, #182426);
    --k-metal: light-dark(#d7ddd9, #35484b);
    --k-body: light-dark(#e9eee8, #23363a);
    --k-body2: light-dark(#d5ded7, #1c2c2f);
    --k-body3: light-dark(#f2f5f0, #2a3b3e);
    --k-flare: light-dark(#a9b6b3, #35484b);
    --k-glass: light-dark(#f4f8f8, #15272d);
    --k-well: light-dark(#9fadaa, #10201e);
    --k-lens: light-dark(#fbfbf6, #526466);
    --k-lamp: light-dark(#d9c3bc, #6b3f3a);
    --k-lamp2: light-dark(#e6d9bd, #6d5134);
    --k-box: light-dark(#dde0d2, #3a4339);
    --k-rail: light-dark(#b9c4c0, #324648);
    --k-bed: light-dark(#dbe2dc, #1c2c2f);
    --k-tubehi: light-dark(#ffffff, #697978);
  }

  /* On paper the outlines carry the drawing: white panels, few grays. */
  @media print {
    :host {
      --k-line: #111111;
      --k-line2: #666666;
      --k-tire: #b4b4b4;
      --k-lug: #cfcfcf;
      --k-lug2: #c6c6c6;
      --k-side: #c6c6c6;
      --k-ring: #e6e6e6;
      --k-rim: #f6f6f6;
      --k-rimd: #777777;
      --k-bolt: #ffffff;
      --k-dark: #555555;
      --k-metal: #f2f2f2;
      --k-body: #ffffff;
      --k-body2: #fafafa;
      --k-body3: #ffffff;
      --k-flare: #d8d8d8;
      --k-glass: #ffffff;
      --k-well: #d0d0d0;
      --k-lens: #ffffff;
      --k-lamp: #eeeeee;
      --k-lamp2: #eeeeee;
      --k-box: #ffffff;
      --k-rail: #e0e0e0;
      --k-bed: #ffffff;
      --k-tubehi: #ffffff;
    }
  }
`;
