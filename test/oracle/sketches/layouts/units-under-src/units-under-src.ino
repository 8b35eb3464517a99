// src/ is compiled with everything below it; includes by path, up and down.
#include "src/fan.h"
#include "pins.h"

void setup() {
  fanBegin(FAN_PIN);
  fanSpeed(60);
}
void loop() { delay(10); }
