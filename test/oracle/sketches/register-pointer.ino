volatile uint8_t *control = &TCCR2B;
void setup() {
  pinMode(11, OUTPUT);
  *control = (*control & 0xF8) | 1;
  analogWrite(11, 77);
}
void loop() {}
