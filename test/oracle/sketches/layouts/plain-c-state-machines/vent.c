#include <avr/io.h>
enum state { HOT = 3, WARM = 7, IDLE = 1 };
struct machine { uint16_t opening; enum state state; };
static struct machine machine = { .opening = 77, .state = IDLE };
extern uint8_t turns;
uint8_t tally;
static void enter(enum state next) { machine.state = next; }
static void apply(const struct machine *m) { OCR2B = m->opening; }
void vent_turn(void)
{
  if (turns == 1) enter(WARM);
  machine.opening = machine.state * 10;
  apply(&machine);
}
void machines_start(void)
{
  DDRB |= 1 << 3;
  DDRD |= 1 << 3;
  TCCR2A = 1 << COM2A1 | 1 << COM2B1 | 1 << WGM20;
  TCCR2B = 1 << CS21;
}
