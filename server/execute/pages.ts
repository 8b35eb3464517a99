/**
 * A list whose copies share what neither has changed, page by page. Law: a copy never sees a change made to the other.
 * Two that descend from the same list are compared by looking only at pages that differ.
 */

/** Entries per page: what is copied when one of them changes. */
const PAGE = 16;

class Page<T> {
  constructor(
    /** Who may change it; nobody once it is shared. */
    readonly owner: object | null,
    readonly values: T[],
  ) {}
}

export class Pages<T> {
  private pages: Page<T>[];
  /** Whether `pages` itself is shared with another list. */
  private shared = false;
  /** What pages that this list made since its last copy know it by. */
  private token: object = {};

  private constructor(pages: Page<T>[]) {
    this.pages = pages;
  }

  static of<T>(values: readonly T[]): Pages<T> {
    const pages: Page<T>[] = [];
    for (let at = 0; at < values.length; at += PAGE) pages.push(new Page(null, values.slice(at, at + PAGE)));
    return new Pages(pages);
  }

  copy(): Pages<T> {
    const copy = new Pages(this.pages);
    this.shared = true;
    copy.shared = true;
    this.token = {};
    return copy;
  }

  get(at: number): T | undefined {
    return this.pages[at >> 4]?.values[at & 15];
  }

  set(at: number, value: T): void {
    const index = at >> 4;
    let page = this.pages[index];
    if (page !== undefined && page.values[at & 15] === value) return;
    if (page === undefined || page.owner !== this.token) page = this.own(index, page);
    page.values[at & 15] = value;
  }

  private own(index: number, page: Page<T> | undefined): Page<T> {
    if (this.shared) {
      this.pages = this.pages.slice();
      this.shared = false;
    }
    while (this.pages.length < index) this.pages.push(new Page<T>(null, []));
    const own = new Page(this.token, page === undefined ? new Array<T>(PAGE) : page.values.slice());
    this.pages[index] = own;
    return own;
  }

  /**
   * Calls `see` for every place in which the two differ; stops where it answers false. True where it never did. `see` may
   * change this list at the place it is called for.
   */
  differences(other: Pages<T>, see: (at: number, mine: T | undefined, others: T | undefined) => boolean): boolean {
    if (this.pages === other.pages) return true;
    const count = Math.max(this.pages.length, other.pages.length);
    for (let index = 0; index < count; index++) {
      const mine = this.pages[index]?.values ?? [];
      const others = other.pages[index]?.values ?? [];
      if (mine === others) continue;
      const length = Math.max(mine.length, others.length);
      for (let at = 0; at < length; at++) {
        if (mine[at] !== others[at] && !see(index * PAGE + at, mine[at], others[at])) return false;
      }
    }
    return true;
  }

  *[Symbol.iterator](): Generator<[number, T]> {
    for (const [index, page] of this.pages.entries()) {
      for (const [at, value] of page.values.entries()) if (value !== undefined) yield [index * PAGE + at, value];
    }
  }
}
