#include <avr/io.h>
enum state { IDLE, WARM, HOT };
struct machine { enum state state; uint8_t level; };
static struct machine machine;
uint8_t turns;
static void enter(enum state next) { machine.state = next; }
static void apply(const struct machine *m) { OCR2A = m->level; }
void heater_turn(void)
{
  switch (machine.state) {
  case IDLE: machine.level = 10; enter(WARM); break;
  case WARM: machine.level = 90; enter(HOT); break;
  case HOT: machine.level = 200; enter(WARM); break;
  }
  apply(&machine);
  turns++;
}
