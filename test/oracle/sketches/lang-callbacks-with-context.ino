// callbacks with a context pointer, a function that gives a function, a table of tables
typedef void (*Callback)(void *, int);
struct Channel { volatile uint8_t *reg; int gain; };
struct Event { Callback call; void *context; };
static void scaled(void *p, int v) { Channel *c = static_cast<Channel *>(p); *c->reg = v * c->gain / 10; }
static void raw(void *p, int v) { *(volatile uint8_t *)p = v; }
Channel lamp = { &OCR0A, 15 };
Event events[] = { { scaled, &lamp }, { raw, (void *)&OCR0B } };
int add(int a, int b) { return a + b; }
int sub(int a, int b) { return a - b; }
int (*chooser(char op))(int, int) { return op == '+' ? add : sub; }
int (*const ops[2][2])(int, int) = { { add, sub }, { sub, add } };
void each(Event *e, uint8_t n, int v) { while (n--) { e->call(e->context, v); ++e; v += 20; } }
void setup() {
  DDRD |= 0x68; TCCR0A |= 0xA0; TCCR2A = 0x23;
  each(events, 2, chooser('+')(30, 4));
  OCR2B = ops[1][0](100, 30) + (*ops[0][0])(1, 2);
}
void loop() {}
