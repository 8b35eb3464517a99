// What is static, const or in a namespace without a name belongs to its file alone: the fan's and the lamp's do not mix.
#include "tally.h"

void startFan();
void startLamp();
void runFan();

static uint8_t duty = 10;
const uint8_t SHARE = 2;

static void apply() { OCR2A = duty * SHARE; }

void setup() {
  pinMode(11, OUTPUT);
  TCCR2A = _BV(COM2A1) | _BV(WGM21) | _BV(WGM20);
  TCCR2B = _BV(CS21);
  apply();
  tally += 5;
  startFan();
  startLamp();
  delay(20);
}

void loop() {
  runFan();
  OCR2A = 20 + tally;
  delay(20);
}
