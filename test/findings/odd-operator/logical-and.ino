void setup() {
  pinMode(3, OUTPUT);
  TCCR2B = TCCR2B && 0xF8 | 0x01;
//= finding odd-operator "&& makes 1 or 0 of its two sides: 0x04 → 0x01"
//= fix "Write & in place of &&"
}
void loop() { analogWrite(3, 60); }
