// At file level `Lamp lamp(PIN, other);` reads like a prototype: the names are no types, so it is an object.
const uint8_t PIN = 11;
uint8_t start = 60;
struct Lamp {
  Lamp(uint8_t pin, const uint8_t &level) : pin(pin), level(level) {}
  void begin() { analogWrite(pin, level); }
  uint8_t pin;
  const uint8_t &level;
};
struct Holder {
  Holder(Lamp &lamp) : lamp(&lamp) {}
  Lamp *lamp;
};
Lamp lamp(PIN, start);
Holder holder(lamp);
void setup() {
  holder.lamp->begin();
  start = 90;
  analogWrite(3, holder.lamp->level);
}
void loop() { delay(5); }
