// Tables of functions, callbacks and objects behind an interface that lies in another file.
#include "outputs.h"
static void low(uint8_t pin) { analogWrite(pin, 30); }
static void high(uint8_t pin) { analogWrite(pin, 210); }
const Action ACTIONS[] = {low, high};
const uint8_t ACTION_COUNT = 2;

struct Dimmed : Output {
  explicit Dimmed(uint8_t pin) : Output(pin) {}
  void apply(uint8_t level) override { analogWrite(pin, level / 2); }
};
Dimmed dimmed(5);

void setup() {
  attach(&dimmed);
  attach(&plain());
  runAll(ACTIONS, 1);
}
void loop() {
  level(100);
  delay(5);
}
