/** The memory of one path: a value or an aggregate per object. Copies share their content until one of the two changes. Law: an object without a cell may hold anything. */
import type { Aggregate } from "./memory.js";
import { Pages } from "./pages.js";
import type { Value } from "./value.js";

export type Content = Value | Aggregate;

/** Small consecutive numbers for the objects of one run, so that memories are plain arrays. */
class Slots {
  private readonly bySlot: number[] = [];
  private readonly byObject = new Map<number, number>();

  of(object: number): number {
    const known = this.byObject.get(object);
    if (known !== undefined) return known;
    const made = this.bySlot.length;
    this.bySlot.push(object);
    this.byObject.set(object, made);
    return made;
  }

  object(slot: number): number {
    return this.bySlot[slot]!;
  }
}

export class Cells {
  private constructor(
    private readonly slots: Slots,
    private readonly contents: Pages<Content | undefined>,
  ) {}

  static empty(): Cells {
    return new Cells(new Slots(), Pages.of([]));
  }

  copy(): Cells {
    return new Cells(this.slots, this.contents.copy());
  }

  get(object: number): Content | undefined {
    return this.contents.get(this.slots.of(object));
  }

  has(object: number): boolean {
    return this.get(object) !== undefined;
  }

  set(object: number, value: Content): void {
    this.contents.set(this.slots.of(object), value);
  }

  delete(object: number): void {
    this.contents.set(this.slots.of(object), undefined);
  }

  /** Calls `see` for every object in which the two memories differ; stops where it answers false. True where it never did. */
  differences(
    other: Cells,
    see: (object: number, mine: Content | undefined, others: Content | undefined) => boolean,
  ): boolean {
    return this.contents.differences(other.contents, (slot, mine, others) =>
      see(this.slots.object(slot), mine, others),
    );
  }

  *[Symbol.iterator](): Generator<[number, Content]> {
    for (const [slot, value] of this.contents) if (value !== undefined) yield [this.slots.object(slot), value];
  }

  keys(): number[] {
    return [...this].map(([object]) => object);
  }
}
