// a transition table with actions as function pointers
enum State { IDLE, RUN, COOL, STATES };
enum Event { TICK, HOT, EVENTS };
static uint8_t duty;
static void nothing() {}
static void up() { duty = duty < 200 ? duty + 50 : 200; }
static void down() { duty = duty >= 80 ? duty - 80 : 0; }
struct Edge { State next; void (*act)(); };
const Edge table[STATES][EVENTS] = {
  { { RUN, up }, { COOL, nothing } },
  { { RUN, up }, { COOL, down } },
  { { IDLE, down }, { COOL, down } },
};
State s = IDLE;
void on(Event e) { const Edge &x = table[s][e]; x.act(); s = x.next; OCR2A = duty; }
void setup() { DDRB |= 8; TCCR2A = 0x83; for (byte i = 0; i < 3; i++) on(TICK); on(HOT); }
void loop() { on(TICK); delay(2); on(analogRead(0) > 600 ? HOT : TICK); delay(2); }
