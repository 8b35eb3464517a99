/**
 * Which variables can decide what the pins do: those whose values flow into registers, into calls of the core, or into
 * conditions around such. A heuristic for the executor's merging of states; it never decides what is true.
 */
import { constantOf } from "./constant.js";
import type { Expression, FunctionCode, Place, Program, Statement, Variable } from "./ir.js";
import { Landmarks } from "./landmarks.js";

interface Flow {
  /** Null: hardware, or a place that is not known. */
  readonly target: Variable | null;
  readonly sources: readonly Variable[];
  /** True where only a duty value, a level or a length of time takes the sources up. */
  readonly duty: boolean;
}

/** Sets `relevant` and `steers` on every variable of the program that needs them, and the landmarks. */
export function markRelevant(program: Program): void {
  const flows: Flow[] = [];
  const landmarks = new Landmarks();
  const walker = new Walker(flows, landmarks, program.functions);
  walker.statement(program.startup);
  for (const code of program.functions) if (code.body !== null) walker.function(code);
  landmarks.settle();
  const byTarget = new Map<Variable, Variable[]>();
  for (const flow of flows) {
    if (flow.target === null) continue;
    const present = byTarget.get(flow.target);
    if (present === undefined) byTarget.set(flow.target, [...flow.sources]);
    else present.push(...flow.sources);
  }
  spread(flows, byTarget, "relevant", () => true);
  spread(flows, byTarget, "steers", (flow) => !flow.duty);
}

/** Sets a mark on everything that flows into the hardware by way of the flows that count. */
function spread(
  flows: readonly Flow[],
  byTarget: ReadonlyMap<Variable, Variable[]>,
  mark: "relevant" | "steers",
  counts: (flow: Flow) => boolean,
): void {
  const work: Variable[] = [];
  const set = (variable: Variable): void => {
    if (variable[mark]) return;
    variable[mark] = true;
    work.push(variable);
  };
  for (const flow of flows) if (flow.target === null && counts(flow)) for (const source of flow.sources) set(source);
  for (let next = work.pop(); next !== undefined; next = work.pop()) {
    for (const source of byTarget.get(next) ?? []) set(source);
  }
}

/** Registers that hold a duty and never TOP. */
const DUTY_REGISTER = /^OCR\d[BC]/;
/** Arguments that are a duty, a level or a length of time. */
const DUTY_ARGUMENT: Readonly<Record<string, number>> = {
  analogWrite: 1,
  digitalWrite: 1,
  delay: 0,
  delayMicroseconds: 0,
  _delay_ms: 0,
  _delay_us: 0,
};

/** Calls whose arguments and surroundings decide nothing about pins. */
const SILENT = new Set(["random", "randomSeed", "srandom", "millis", "micros", "map", "abs"]);

class Walker {
  private guards: Variable[] = [];
  /** What decided that the rest of the function, or the next round of a loop, is reached at all. */
  private jumps: Variable[] = [];
  /** True where the nearest thing that a break leaves is a switch. */
  private inSwitch = false;

  constructor(
    private readonly flows: Flow[],
    private readonly landmarks: Landmarks,
    /** Whoever a call through a pointer may reach. */
    private readonly functions: readonly FunctionCode[],
  ) {}

  function(code: FunctionCode): void {
    this.guards = [];
    this.jumps = [];
    this.current = code;
    this.statement(code.body!);
    this.current = null;
  }

  private current: FunctionCode | null = null;

  private flow(target: Variable | null, sources: readonly Variable[], duty = false): void {
    if (duty && target === null) {
      if (sources.length > 0) this.flows.push({ target, sources, duty: true });
      if (this.guards.length + this.jumps.length > 0)
        this.flows.push({ target, sources: [...this.guards, ...this.jumps], duty: false });
      return;
    }
    if (sources.length + this.guards.length + this.jumps.length > 0) {
      this.flows.push({ target, sources: [...sources, ...this.guards, ...this.jumps], duty: false });
    }
  }

  statement(statement: Statement): void {
    switch (statement.op) {
      case "block":
        for (const part of statement.body) this.statement(part);
        return;
      case "expression":
        this.expression(statement.expression);
        return;
      case "initialise":
        this.write(statement.target, this.expression(statement.value));
        return;
      case "copy":
        this.write(statement.target, this.place(statement.source));
        return;
      case "call": {
        const callees =
          statement.dispatch !== null
            ? [...statement.dispatch.candidates.values()]
            : statement.code !== null
              ? [statement.code]
              : this.functions;
        if (statement.pointer !== null) this.flow(null, this.expression(statement.pointer));
        const self = statement.self === null ? [] : this.expression(statement.self);
        // Which object it is decides which body runs.
        if (statement.dispatch !== null) this.flow(null, self);
        const passed = statement.arguments.map((argument) => this.expression(argument));
        for (const callee of callees) {
          for (const [index, sources] of passed.entries()) this.flow(callee.parameters[index] ?? null, sources);
          if (callee.self !== null) this.flow(callee.self, self);
          if (statement.result !== null && callee.result !== null) this.flow(statement.result, [callee.result]);
        }
        // What guards the call guards everything inside it.
        if (this.guards.length + this.jumps.length > 0) this.flow(null, []);
        return;
      }
      case "if": {
        const sources = this.expression(statement.condition);
        this.guarded(sources, () => {
          this.statement(statement.yes);
          if (statement.no !== null) this.statement(statement.no);
        });
        return;
      }
      case "loop": {
        for (const part of statement.before) this.statement(part);
        const sources = statement.condition === null ? [] : this.expression(statement.condition);
        const round = (): void =>
          this.guarded(sources, () => {
            this.statement(statement.body);
            for (const part of statement.step) this.statement(part);
          });
        const jumps = this.jumps.length;
        const outer = this.inSwitch;
        this.inSwitch = false;
        round();
        // A jump inside decides about the statements before it in the next round.
        if (this.jumps.length > jumps) round();
        this.inSwitch = outer;
        return;
      }
      case "switch": {
        const sources = this.expression(statement.value);
        const outer = this.inSwitch;
        this.inSwitch = true;
        this.guarded(sources, () => {
          for (const entry of statement.cases) for (const part of entry.body) this.statement(part);
        });
        this.inSwitch = outer;
        return;
      }
      case "return":
        if (statement.value !== null && this.current?.result != null) {
          this.flow(this.current.result, this.expression(statement.value));
        }
        this.jump();
        return;
      case "break":
        // Out of a switch it decides nothing but the switch itself.
        if (!this.inSwitch) this.jump();
        return;
      case "continue":
      case "goto":
        this.jump();
        return;
      case "once":
        this.guarded([statement.flag], () => this.statement(statement.body));
        return;
      case "gap":
        this.flow(null, []);
        return;
      default:
    }
  }

  /** From here on what is executed depends on the conditions around this place. */
  private jump(): void {
    for (const guard of this.guards) if (!this.jumps.includes(guard)) this.jumps.push(guard);
  }

  private guarded(sources: readonly Variable[], work: () => void): void {
    const depth = this.guards.length;
    this.guards.push(...sources);
    work();
    this.guards.length = depth;
  }

  private write(target: Place, sources: readonly Variable[]): void {
    const root = rootOf(target);
    const positions = this.place(target);
    if (root === null)
      this.flow(null, [...sources, ...positions], target.op === "register" && DUTY_REGISTER.test(target.name));
    else this.flow(root, [...sources, ...positions.filter((variable) => variable !== root)]);
  }

  private expression(expression: Expression): Variable[] {
    switch (expression.op) {
      case "load":
        return this.place(expression.place);
      case "address":
        return this.place(expression.place);
      case "convert":
      case "negate":
      case "complement":
      case "not":
      case "traced":
        return this.expression(expression.operand);
      case "compare": {
        const left = this.expression(expression.left);
        const right = this.expression(expression.right);
        this.noteLandmarks(left, expression.right);
        this.noteLandmarks(right, expression.left);
        return [...left, ...right];
      }
      case "binary":
      case "and":
      case "or":
      case "distance":
        return [...this.expression(expression.left), ...this.expression(expression.right)];
      case "comma":
        this.expression(expression.left);
        return this.expression(expression.right);
      case "offset":
        return [...this.expression(expression.pointer), ...this.expression(expression.count)];
      case "choose":
        return [
          ...this.expression(expression.condition),
          ...this.expression(expression.yes),
          ...this.expression(expression.no),
        ];
      case "assign": {
        const sources = this.expression(expression.value);
        this.write(expression.target, sources);
        this.noteStep(expression);
        return [...sources, ...this.place(expression.target)];
      }
      case "core": {
        const parts = expression.arguments.map((argument) => this.expression(argument));
        if (!SILENT.has(expression.name)) {
          // What guards the call decides whether it happens at all, whatever it is given.
          this.flow(null, []);
          for (const [index, sources] of parts.entries())
            this.flow(null, sources, DUTY_ARGUMENT[expression.name] === index);
        }
        return parts.flat();
      }
      case "unknown": {
        const operands = expression.operands.flatMap((operand) => this.expression(operand));
        if (!expression.harmless || expression.fills === true) this.flow(null, operands);
        return operands;
      }
      case "text":
        return [expression.object];
      case "integer":
      case "real":
      case "null":
      case "function":
        return [];
      default:
        return this.place(expression);
    }
  }

  private noteLandmarks(variables: readonly Variable[], limit: Expression): void {
    const constant = variables.length === 0 ? undefined : constantOf(limit);
    if (constant !== undefined) this.landmarks.compared(variables, constant);
  }

  private noteStep({ target, operator, value }: Extract<Expression, { op: "assign" }>): void {
    if (operator !== "+" && operator !== "-") return;
    const variable = rootOf(target);
    const by = variable === null ? undefined : constantOf(value);
    if (variable !== null && by !== undefined) this.landmarks.stepped(variable, by);
  }

  private place(place: Place): Variable[] {
    switch (place.op) {
      case "variable":
        return [place.variable];
      case "dereference":
        return this.expression(place.pointer);
      case "index":
        return [...this.place(place.base), ...this.expression(place.index)];
      case "member":
        return this.place(place.base);
      case "temporary":
        return this.expression(place.value);
      default:
        return [];
    }
  }
}

function rootOf(place: Place): Variable | null {
  switch (place.op) {
    case "variable":
      return place.variable;
    case "index":
    case "member":
      return rootOf(place.base);
    case "temporary":
      return place.variable;
    default:
      return null;
  }
}
