// OC0A toggles in mode 7: half the PWM frequency.
void setup() {
  DDRD = DDRD | B01000000;
  TCCR0A = B01000011;
  TCCR0B = B00001010;
  OCR0A = 50;
}
void loop() {}
