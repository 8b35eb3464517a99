/**
 * Sketches that ask for what costs most, each for one thing: ways that multiply, routines that come between, states that
 * grow, calls, tables, names. All are short of 5,000 lines and of a kind that a person or a generator could have written.
 */

export interface WorstSketch {
  readonly name: string;
  /** What it is hard on. */
  readonly hardOn: string;
  readonly text: string;
}

export function worstSketches(): readonly WorstSketch[] {
  return [
    { name: "40 branches that set timers", hardOn: "states that differ in registers", text: branches(40) },
    { name: "400 branches that set timers", hardOn: "the same, at length", text: branches(400) },
    { name: "ifs 12 deep on inputs", hardOn: "conditions, one state a leaf", text: nestedIfs(12) },
    { name: "ifs 7 deep, both sides", hardOn: "128 leaves, all different", text: bothSides(7) },
    { name: "loops five deep", hardOn: "rounds before widening", text: deepLoops() },
    { name: "table of 4,000 numbers", hardOn: "large aggregates", text: bigTable(4_000) },
    { name: "macros nested 40 deep", hardOn: "expansion", text: nestedMacros(40) },
    { name: "macros that double, 2^11", hardOn: "expansion that multiplies", text: doublingMacros(11) },
    { name: "2,000 uses of bit macros", hardOn: "source map and expansion", text: macroHeavy(2_000) },
    { name: "calls 60 deep", hardOn: "frames", text: deepCalls(60) },
    { name: "200 functions, each calls two", hardOn: "a call graph of 2^n paths", text: callLattice(200) },
    { name: "200 functions in a ring", hardOn: "recursion through others", text: callRing(200) },
    { name: "recursion on an input", hardOn: "recursion whose end is not known", text: recursion() },
    { name: "fade in single steps", hardOn: "turns followed one by one", text: fade() },
    { name: "fades of three periods", hardOn: "turns that come back late", text: threeFades() },
    { name: "16 interrupt routines", hardOn: "routines in any order at every settled point", text: routines() },
    { name: "state machine of 60 states", hardOn: "states of a machine times timer states", text: stateMachine(60, 1) },
    { name: "four machines of 12 states", hardOn: "products of machines", text: stateMachine(12, 4) },
    { name: "tables of registers", hardOn: "writes through pointers that may mean many", text: registerTables() },
    { name: "every register by address", hardOn: "loops over the register file", text: everyRegister() },
    { name: "4,900 register writes", hardOn: "straight code", text: straightWrites(4_900) },
    { name: "4,900 writes of an input", hardOn: "straight code, values not known", text: straightInputs(4_900) },
    { name: "300 template instances", hardOn: "instantiation", text: templates(300) },
    { name: "template recursion 60 deep", hardOn: "instantiation through itself", text: templateRecursion(60) },
    { name: "100 objects, virtual calls", hardOn: "dispatch and global constructors", text: virtualCalls(100) },
    { name: "200 switch cases, 8 timers' worth", hardOn: "switch over an input", text: wideSwitch(200) },
    { name: "waits inside 30 branches", hardOn: "settled points times states", text: waitingBranches(30) },
    { name: "goto out of 40 places", hardOn: "jumps back and their rounds", text: gotos(40) },
    { name: "text built in a loop", hardOn: "memory written at unknown places", text: unknownPlaces() },
  ];
}

function lines(count: number, line: (n: number) => string): string {
  return Array.from({ length: count }, (_, n) => line(n)).join("\n");
}

function branches(count: number): string {
  const body = lines(count, (n) => {
    const register = ["OCR2B", "OCR1A", "OCR0B", "TCCR2B", "TCCR1B"][n % 5]!;
    return `  if (digitalRead(${n % 14})) ${register} = ${(n * 37) % 256}; else ${register} |= ${1 << (n % 3)};`;
  });
  return `void setup() {\n  pinMode(3, OUTPUT);\n}\n\nvoid loop() {\n${body}\n  delay(5);\n}\n`;
}

function nestedIfs(depth: number): string {
  let body = "OCR2B = 200;";
  for (let n = 0; n < depth; n++)
    body = `if (analogRead(${n % 6}) > ${100 + n * 50}) {
      TCCR2B = (TCCR2B & 0xF8) | ${(n % 7) + 1};
      ${body}
    } else {
      OCR2B = ${n * 9};
      TCCR1B = (TCCR1B & 0xF8) | ${(n % 5) + 1};
    }`;
  return `void setup() {
  pinMode(3, OUTPUT);
  TCCR2A = _BV(COM2B1) | _BV(WGM21) | _BV(WGM20);
}

void loop() {
  ${body}
  delay(10);
}
`;
}

/** Every leaf of a full tree sets other registers. */
function bothSides(depth: number): string {
  let leaf = 0;
  const tree = (level: number): string => {
    if (level === 0) {
      leaf++;
      return `OCR1A = ${leaf * 100}; OCR2A = ${leaf}; TCCR0B = ${(leaf % 5) + 1};`;
    }
    return `if (digitalRead(${level})) { ${tree(level - 1)} } else { ${tree(level - 1)} }`;
  };
  return `void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A0);
  TCCR1B = _BV(WGM12) | _BV(CS11);
}

void loop() {
  ${tree(depth)}
  delay(20);
}
`;
}

function deepLoops(): string {
  return `int heat = 0;

void setup() {
  pinMode(3, OUTPUT);
  for (int a = 0; a < 20; a++)
    for (int b = 0; b < 20; b++)
      for (int c = 0; c < 20; c++)
        for (int d = 0; d < 20; d++)
          for (int e = 0; e < 20; e++)
            heat += a * b - c * d + e;
  OCR2A = heat;
}

void loop() {
  analogWrite(3, heat);
}
`;
}

function bigTable(count: number): string {
  const rows: string[] = [];
  for (let at = 0; at < count; at += 16)
    rows.push(`  ${Array.from({ length: 16 }, (_, n) => ((at + n) * 73) % 256).join(", ")},`);
  return `const byte song[${count}] = {
${rows.join("\n")}
};

void setup() {
  pinMode(3, OUTPUT);
}

void loop() {
  for (int i = 0; i < ${count}; i++) {
    analogWrite(3, song[i]);
    delay(1);
  }
}
`;
}

function nestedMacros(depth: number): string {
  const macros = lines(depth, (n) => `#define STEP${n + 1}(x) (STEP${n}(x) + ${n + 1})`);
  return `#define STEP0(x) (x)
${macros}

void setup() {
  pinMode(3, OUTPUT);
}

void loop() {
${lines(20, (n) => `  analogWrite(3, STEP${depth}(${n}) & 255);`)}
}
`;
}

function doublingMacros(depth: number): string {
  return `#define TWICE0(x) OCR2B = x;
${lines(depth, (n) => `#define TWICE${n + 1}(x) TWICE${n}(x) TWICE${n}(x + ${n})`)}

void setup() {
  pinMode(3, OUTPUT);
  TCCR2A = _BV(COM2B1) | _BV(WGM21) | _BV(WGM20);
  TWICE${depth}(1)
}

void loop() {
}
`;
}

function macroHeavy(count: number): string {
  return `#define SET(r, b) ((r) |= _BV(b))
#define CLEAR(r, b) ((r) &= ~_BV(b))
#define CONTROL(n, l) TCCR##n##l
#define PRESCALE(n, p) do { CONTROL(n, B) = (CONTROL(n, B) & 0xF8) | (p); } while (0)
#define CONNECT(n, l) SET(CONTROL(n, A), COM##n##l##1)
#define DUTY(n, l, v) (OCR##n##l = (v))

void setup() {
${lines(count, (n) => `  ${["PRESCALE(2, 3);", "CONNECT(2, B);", `DUTY(2, B, ${n % 256});`, "SET(DDRD, 3);", "CLEAR(PORTD, 3);"][n % 5]}`)}
}

void loop() {
}
`;
}

function deepCalls(depth: number): string {
  return `int call0(int x) { return x; }
${lines(depth, (n) => `int call${n + 1}(int x) { return call${n}(x + ${n + 1}) + (x & 1 ? call0(x) : 0); }`)}

void setup() {
  pinMode(3, OUTPUT);
}

void loop() {
  analogWrite(3, call${depth}(analogRead(A0)) & 127);
}
`;
}

/** Every function calls the next two: followed blindly, 2^n calls. */
function callLattice(count: number): string {
  return `${lines(count, (n) => `void part${n}(int x);`)}
void part${count}(int x) { OCR2B = x; }
void part${count + 1}(int x) { OCR2A = x; }
${lines(count, (n) => `void part${n}(int x) { if (x > ${n}) part${n + 1}(x - 1); else part${n + 2}(x + 1); }`)}

void setup() {
  pinMode(3, OUTPUT);
}

void loop() {
  part0(analogRead(A0));
  delay(10);
}
`;
}

function callRing(count: number): string {
  return `${lines(count, (n) => `void ring${n}(int x);`)}
${lines(count, (n) => `void ring${n}(int x) { OCR2B = x; if (digitalRead(${n % 14})) ring${(n + 1) % count}(x + ${n}); }`)}

void setup() {
  pinMode(3, OUTPUT);
}

void loop() {
  ring0(0);
  delay(10);
}
`;
}

function recursion(): string {
  return `int depth(int n) {
  if (n <= 0) return 0;
  OCR2B = n;
  if (digitalRead(4)) return depth(n - 1) + 1;
  return depth(n - 2) + depth(n / 2);
}

int ackermann(int m, int n) {
  if (m == 0) return n + 1;
  if (n == 0) return ackermann(m - 1, 1);
  return ackermann(m - 1, ackermann(m, n - 1));
}

void setup() {
  pinMode(3, OUTPUT);
  OCR2A = ackermann(2, 3);
}

void loop() {
  analogWrite(3, depth(analogRead(A0)));
}
`;
}

function fade(): string {
  return `int level = 0;
int step = 5;

void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(WGM10);
  TCCR1B = _BV(WGM12) | _BV(CS11);
}

void loop() {
  analogWrite(9, level);
  level += step;
  if (level <= 0 || level >= 255) step = -step;
  delay(30);
}
`;
}

/** Three counters whose common period is past every limit. */
function threeFades(): string {
  return `int a = 0, b = 0, c = 0;
int up = 1;

void setup() {
  pinMode(9, OUTPUT);
  pinMode(10, OUTPUT);
  pinMode(3, OUTPUT);
}

void loop() {
  analogWrite(9, a);
  analogWrite(10, b);
  analogWrite(3, c);
  a = (a + 7) % 251;
  b = (b + 11) % 241;
  c += up;
  if (c == 0 || c == 255) up = -up;
  delay(10);
}
`;
}

function routines(): string {
  const vectors = [
    "TIMER0_COMPA_vect",
    "TIMER0_COMPB_vect",
    "TIMER1_COMPA_vect",
    "TIMER1_COMPB_vect",
    "TIMER1_OVF_vect",
    "TIMER1_CAPT_vect",
    "TIMER2_COMPA_vect",
    "TIMER2_COMPB_vect",
    "TIMER2_OVF_vect",
    "INT0_vect",
    "INT1_vect",
    "PCINT0_vect",
    "PCINT1_vect",
    "PCINT2_vect",
    "ADC_vect",
    "USART_RX_vect",
  ];
  const bodies = vectors
    .map(
      (vector, n) => `volatile byte count${n};
ISR(${vector}) {
  count${n}++;
  if (count${n} == ${n * 13 + 5}) {
    count${n} = 0;
    OCR1A = ${n * 50};
    TCCR2B = (TCCR2B & 0xF8) | ${(n % 7) + 1};
  } else if (count${(n + 1) % 16} > ${n}) PORTB ^= _BV(${n % 6});
}
`,
    )
    .join("\n");
  return `${bodies}
void setup() {
  DDRB = 0x3F;
  TCCR1B = _BV(WGM12) | _BV(CS11);
  TIMSK0 = 6;
  TIMSK1 = 0x27;
  TIMSK2 = 7;
  EIMSK = 3;
  PCICR = 7;
  PCMSK0 = PCMSK1 = PCMSK2 = 0xFF;
  ADCSRA |= _BV(ADIE) | _BV(ADATE);
  UCSR0B |= _BV(RXCIE0);
  sei();
}

void loop() {
  if (count3 > 4) delay(5);
  OCR2B = count0;
  delay(1);
  OCR2A = count1 + count2;
  delay(1);
}
`;
}

function stateMachine(states: number, machines: number): string {
  const one = (m: number): string => `
byte state${m} = 0;
unsigned long since${m} = 0;

void step${m}() {
  switch (state${m}) {
${lines(
  states,
  (n) => `    case ${n}:
      ${["OCR1A", "OCR1B", "OCR2A", "OCR2B"][m % 4]} = ${(n * 31) % 256};
      TCCR${(m % 2) + 1}B = (TCCR${(m % 2) + 1}B & 0xF8) | ${(n % 5) + 1};
      if (digitalRead(${n % 14})) state${m} = ${(n + 1) % states};
      else if (millis() - since${m} > ${n * 10}UL) { state${m} = ${(n * 7 + 3) % states}; since${m} = millis(); }
      break;`,
)}
    default:
      state${m} = 0;
  }
}
`;
  return `${lines(machines, one)}
void setup() {
  pinMode(9, OUTPUT);
  pinMode(3, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(WGM11);
  ICR1 = 1000;
  TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS11);
}

void loop() {
${lines(machines, (m) => `  step${m}();`)}
  delay(3);
}
`;
}

function registerTables(): string {
  return `volatile uint8_t *const control[] = {&TCCR0A, &TCCR0B, &TCCR1A, &TCCR1B, &TCCR2A, &TCCR2B};
volatile uint8_t *const duty[] = {&OCR0A, &OCR0B, &OCR2A, &OCR2B};
struct Output { volatile uint8_t *ddr; volatile uint8_t *port; volatile uint8_t *compare; byte bit; };
const Output outputs[] = {
  {&DDRD, &PORTD, &OCR0A, 6}, {&DDRD, &PORTD, &OCR0B, 5}, {&DDRB, &PORTB, &OCR2A, 3}, {&DDRD, &PORTD, &OCR2B, 3},
};

void choose(byte which, byte value) {
  *control[which % 6] |= value;
  *duty[which % 4] = value;
}

void drive(const Output &output, byte value) {
  *output.ddr |= _BV(output.bit);
  if (value == 0) *output.port &= ~_BV(output.bit);
  else *output.compare = value;
}

void setup() {
  for (byte n = 0; n < 4; n++) drive(outputs[n], n * 60);
}

void loop() {
  for (byte n = 0; n < 12; n++) choose(analogRead(n % 6) & 7, 1 << (n % 8));
  for (byte n = 0; n < 12; n++) drive(outputs[random(4)], analogRead(A1) / 4);
  delay(7);
}
`;
}

function everyRegister(): string {
  return `byte saved[0xE0];

void setup() {
  for (uint16_t at = 0x20; at < 0x100; at++) saved[at - 0x20] = _SFR_MEM8(at);
  for (volatile uint8_t *at = (volatile uint8_t *) 0x80; at < (volatile uint8_t *) 0xC0; at++) *at = 0;
  for (uint16_t at = 0x44; at < 0x49; at++) _SFR_MEM8(at) = saved[at - 0x20];
  for (byte turn = 0; turn < 20; turn++)
    for (uint16_t at = 0x80; at < 0xBC; at++) *(volatile uint8_t *) at |= turn;
}

void loop() {
  byte which = analogRead(A0);
  _SFR_MEM8(0x80 + (which & 0x0F)) ^= which;
  _SFR_MEM8(0xB0 + (which & 7)) = which;
  delay(1);
}
`;
}

function straightWrites(count: number): string {
  const registers = ["OCR0A", "OCR0B", "OCR1A", "OCR1B", "OCR2A", "OCR2B", "TCCR0B", "TCCR1A", "TCCR1B", "TCCR2A"];
  return `void setup() {
  DDRB = 0xFF;
  DDRD = 0xFF;
${lines(count, (n) => `  ${registers[n % 10]} ${n % 3 === 0 ? "|=" : "="} ${(n * 37) % 200};`)}
}

void loop() {
}
`;
}

function straightInputs(count: number): string {
  const registers = ["OCR0A", "OCR0B", "OCR1A", "OCR1B", "OCR2A", "OCR2B"];
  return `int knob;

void setup() {
  DDRB = 0xFF;
  DDRD = 0xFF;
}

void loop() {
  knob = analogRead(A0);
${lines(count, (n) => (n % 50 === 49 ? "  knob = analogRead(A1);" : `  ${registers[n % 6]} = map(knob, 0, 1023, ${n % 40}, ${200 + (n % 50)});`))}
}
`;
}

function templates(count: number): string {
  return `template <uint8_t N> struct Step {
  static const uint8_t value = N % 250;
  static void go() { OCR2B = value; if (analogRead(A0) > N) OCR2A = N; }
};
template <typename T, int N> T scaled(T x) { return x * N / 16; }

void setup() {
  pinMode(3, OUTPUT);
}

void loop() {
${lines(count, (n) => `  Step<${n % 256}>::go();\n  OCR1A = scaled<${["int", "long", "uint16_t", "uint8_t"][n % 4]}, ${n}>(${n});`)}
  delay(1);
}
`;
}

function templateRecursion(depth: number): string {
  return `template <int N> struct Sum { enum { value = N + Sum<N - 1>::value }; };
template <> struct Sum<0> { enum { value = 0 }; };
template <int N> inline void set() { OCR2B = Sum<N>::value & 0xFF; set<N - 1>(); }
template <> inline void set<0>() { OCR2B = 7; }

void setup() {
  pinMode(3, OUTPUT);
  set<${depth}>();
}

void loop() {
}
`;
}

function virtualCalls(count: number): string {
  return `class Device {
 public:
  Device(byte pin, Device *next) : pin(pin), next(next) {}
  virtual void begin() { pinMode(pin, OUTPUT); }
  virtual void run(int input) = 0;
  byte pin;
  Device *next;
};
class Lamp : public Device {
 public:
  Lamp(byte pin, Device *next) : Device(pin, next), level(0) {}
  void run(int input) override { if (input > 300) level++; analogWrite(pin, level); }
  byte level;
};
class Vent : public Lamp {
 public:
  Vent(byte pin, Device *next) : Lamp(pin, next) {}
  void begin() override { Lamp::begin(); TCCR1B = (TCCR1B & 0xF8) | 2; }
  void run(int input) override { if (input & 1) OCR1A = input; else Lamp::run(input / 2); }
};

${lines(count, (n) => `${n % 3 === 0 ? "Vent" : "Lamp"} device${n}(${[3, 5, 6, 9, 10, 11][n % 6]}, ${n === 0 ? "0" : `&device${n - 1}`});`)}
Device *all[] = {${Array.from({ length: count }, (_, n) => `&device${n}`).join(", ")}};

void setup() {
  for (Device *each = &device${count - 1}; each; each = each->next) each->begin();
}

void loop() {
  for (int n = 0; n < ${count}; n++) all[n]->run(analogRead(n % 6));
  all[analogRead(A0) % ${count}]->run(7);
  delay(2);
}
`;
}

function wideSwitch(count: number): string {
  return `void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A0);
  TCCR1B = _BV(WGM12) | _BV(CS10);
}

void loop() {
  switch (Serial.read()) {
${lines(count, (n) => `    case ${n}: OCR1A = ${n * 17 + 3}; TCCR1B = _BV(WGM12) | ${(n % 5) + 1}; OCR2A = ${n}; TCCR2B = ${(n % 7) + 1}; break;`)}
  }
  delay(1);
}
`;
}

function waitingBranches(count: number): string {
  return `volatile byte ticks;
ISR(TIMER1_COMPA_vect) { ticks++; OCR1A += 10; }

void setup() {
  pinMode(3, OUTPUT);
  TIMSK1 = _BV(OCIE1A);
}

void loop() {
${lines(count, (n) => `  if (digitalRead(${n % 14})) { OCR2B = ${n * 8}; delay(${n}); if (ticks > ${n}) TCCR2B = ${(n % 7) + 1}; delay(2); }`)}
}
`;
}

function gotos(count: number): string {
  return `void setup() {
  pinMode(3, OUTPUT);
again:
${lines(count, (n) => `  OCR2B = ${n};\n  if (digitalRead(${n % 14})) goto again;\n  TCCR2B = ${(n % 7) + 1};`)}
}

void loop() {
}
`;
}

function unknownPlaces(): string {
  return `char text[200];
int values[300];
byte at = 0;

void setup() {
  pinMode(3, OUTPUT);
  Serial.begin(9600);
}

void loop() {
  while (Serial.available()) {
    char c = Serial.read();
    if (c == ';') {
      values[text[0]] = atoi(text + 1);
      at = 0;
    } else text[at++ % 200] = c;
  }
  for (int n = 0; n < 300; n++) values[values[n] % 300] += values[(n * 7) % 300];
  analogWrite(3, values[analogRead(A0) % 300]);
}
`;
}
