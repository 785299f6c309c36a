/** One part of the page, with its question as heading. */
export interface Section {
  readonly id: string;
  readonly title: string;
  /** How the list of contents calls it. */
  readonly link: string;
  /** What follows the heading; every text of the maker's in it is escaped. */
  readonly html: string;
}
