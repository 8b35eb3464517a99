/** The memory of one path: a value or an aggregate per object. Copies share their content until one of the two changes. */
import type { Aggregate } from "./memory.js";
import type { Value } from "./value.js";

export type Content = Value | Aggregate;

/** Small consecutive numbers for the objects of one run, so that memories are plain arrays. */
export class Slots {
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
  private values: (Content | undefined)[];
  private shared = false;

  constructor(
    private readonly slots: Slots,
    from?: Cells,
  ) {
    this.values = from?.values ?? [];
    if (from !== undefined) {
      this.shared = true;
      from.shared = true;
    }
  }

  copy(): Cells {
    return new Cells(this.slots, this);
  }

  get(object: number): Content | undefined {
    return this.values[this.slots.of(object)];
  }

  has(object: number): boolean {
    return this.get(object) !== undefined;
  }

  set(object: number, value: Content): void {
    const slot = this.slots.of(object);
    if (this.values[slot] === value) return;
    this.own();
    while (this.values.length < slot) this.values.push(undefined);
    this.values[slot] = value;
  }

  delete(object: number): void {
    const slot = this.slots.of(object);
    if (this.values[slot] === undefined) return;
    this.own();
    this.values[slot] = undefined;
  }

  private own(): void {
    if (!this.shared) return;
    this.values = this.values.slice();
    this.shared = false;
  }

  /** Calls `see` for every object in which the two memories differ; stops where it answers false. True where it never did. */
  differences(
    other: Cells,
    see: (object: number, mine: Content | undefined, others: Content | undefined) => boolean,
  ): boolean {
    if (this.values === other.values) return true;
    const length = Math.max(this.values.length, other.values.length);
    for (let slot = 0; slot < length; slot++) {
      const mine = this.values[slot];
      const others = other.values[slot];
      if (mine !== others && !see(this.slots.object(slot), mine, others)) return false;
    }
    return true;
  }

  *[Symbol.iterator](): Generator<[number, Content]> {
    for (let slot = 0; slot < this.values.length; slot++) {
      const value = this.values[slot];
      if (value !== undefined) yield [this.slots.object(slot), value];
    }
  }

  keys(): number[] {
    return [...this].map(([object]) => object);
  }
}
