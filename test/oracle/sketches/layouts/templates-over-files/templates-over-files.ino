// A template that two files use for the same types: one set of statics, and arguments that pass between them.
#include "level.h"
uint8_t half(Level<100> level);
void setup() {
  Level<100> level;
  level.set(60);
  analogWrite(3, half(level));
  analogWrite(5, Level<100>::changes * 30);
  analogWrite(6, Level<200>::changes + 9);
}
void loop() { delay(5); }
