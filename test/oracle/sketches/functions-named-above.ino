// Initialisers that name functions further down: the build puts prototypes of all above the first one.
byte chosen() { return 9; }
struct Lamp {
  byte pin;
  Lamp(byte p) : pin(p) {}
};
void (*const actions[])() = { low, high };
Lamp lamp(chosen());
byte which = doubled(lamp.pin);
void setup() {
  pinMode(lamp.pin, OUTPUT);
  OCR2A = which;
}
void loop() {
  actions[1]();
  delay(3);
}
byte doubled(byte n) { return n * 2; }
void low() { analogWrite(9, 30); }
void high() { analogWrite(lamp.pin, 220); }
