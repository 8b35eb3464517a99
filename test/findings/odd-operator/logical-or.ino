void setup() {
  pinMode(3, OUTPUT);
  TCCR2B = _BV(CS21) || _BV(CS20);
//= finding odd-operator "|| makes 1 or 0 of its two sides: 0x04 → 0x01"
}
void loop() { analogWrite(3, 60); }
