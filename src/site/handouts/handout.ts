/** A page to print that is no chapter: written in the frame, linked from a chapter and from the cover. */
export interface Handout {
  /** File name of the page. */
  readonly page: string;
  readonly title: string;
  /** One sentence for the contents and for search results. */
  readonly description: string;
  /** Style sheets and scripts it has beyond those of every page. */
  readonly styles: readonly string[];
  readonly modules: readonly string[];
  /** The chapter it belongs to. */
  readonly chapter: string;
  readonly html: string;
}
