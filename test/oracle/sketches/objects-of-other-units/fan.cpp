#include "fan.h"
struct Shape {
  uint8_t shift;
};
static const Shape SHAPE = {1};
uint8_t Fan::made;
Fan fan(999);
Fan::Fan(uint16_t top) : _top(top), _shape(&SHAPE) { made++; }
void Fan::level(uint8_t index) { OCR1A = (LEVELS[index] >> _shape->shift) + scaled(settings); }
