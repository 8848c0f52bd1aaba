import { css } from 'lit';

/** Three columns and two rows at the width of a sheet, two columns on a tablet, one on a phone. */
export const tipLinesStyles = css`
  .tip-lines {
    grid-template-columns: minmax(0, 1.45fr) minmax(0, 1.12fr) minmax(0, 0.84fr);
    grid-template-areas:
      'dial polar answer'
      'slope lines lines'
      'working working working';
  }
  .tip-lines.without-figures {
    grid-template-columns: minmax(0, 1fr) minmax(0, 1fr);
    grid-template-areas:
      'dial answer'
      'lines lines';
  }
  .dial {
    grid-area: dial;
  }
  .polar {
    grid-area: polar;
  }
  .answer {
    grid-area: answer;
  }
  .slope {
    grid-area: slope;
  }
  .lines {
    grid-area: lines;
  }
  .working {
    grid-area: working;
  }
  .polar-note {
    margin-block-start: 0.4rem;
  }
  .heading-field {
    margin-block-end: 0.9rem;
  }
  .trial-fields {
    display: grid;
    grid-template-columns: repeat(auto-fit, minmax(17rem, 1fr));
    column-gap: 1.5rem;
  }
  .mode {
    max-width: 22rem;
    margin-block: 0.2rem 0.6rem;
  }
  .trial-fields + .button-row {
    margin-block-start: 0.75rem;
  }
  .factor {
    font-size: 0.9375rem;
    line-height: 1.45;
  }
  .empty {
    display: grid;
    align-content: center;
    min-height: 14rem;
  }
  @container calculator (max-width: 56rem) {
    .tip-lines {
      grid-template-columns: minmax(0, 1fr) minmax(0, 1fr);
      grid-template-areas:
        'dial answer'
        'polar slope'
        'lines lines'
        'working working';
    }
  }
  @container calculator (max-width: 40rem) {
    .tip-lines {
      grid-template-columns: minmax(0, 1fr);
      grid-template-areas: 'dial' 'answer' 'polar' 'slope' 'lines' 'working';
    }
    .tip-lines.without-figures {
      grid-template-columns: minmax(0, 1fr);
      grid-template-areas: 'dial' 'answer' 'lines';
    }
    .tip-lines > * {
      padding-inline: 0.8rem;
    }
    .wide-only {
      display: none;
    }
  }
  @media print {
    .tip-lines {
      grid-template-columns: 1fr 1fr;
      grid-template-areas: 'dial answer' 'slope polar' 'lines lines' 'working working';
      column-gap: 5mm;
    }
  }
`;
