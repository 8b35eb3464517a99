// The routine is the library's, what it calls is the sketch's.
#include <Ticks.h>
static const uint8_t LEVELS[] = {10, 60, 110, 160};
void onTick(uint8_t phase) { OCR0B = LEVELS[phase]; }
void setup() {
  analogWrite(5, 10);
  ticks::start<125>(onTick);
}
void loop() {}
