// What a file defines before it includes a header decides what the header says there.
#define FAN_TOP 499
#define FAN_PERCENT(x) ((FAN_TOP + 1L) * (x) / 100)
#include "fan_setup.h"
#undef FAN_TOP
#define CONFIG "levels.def"
#if __has_include("not_there.h")
#error this branch is for another board
#endif

enum Level {
#define LEVEL(name, value) name,
#include CONFIG
#undef LEVEL
  LEVELS
};
static const uint8_t percent[] = {
#define LEVEL(name, value) value,
#include CONFIG
#undef LEVEL
};

void setup() {
  pinMode(9, OUTPUT);
  fanSetup();
  OCR1A = FAN_AT(percent[BRISK]) + LEVELS;
  OCR1B = fanTopElsewhere();
}
void loop() { delay(5); }
