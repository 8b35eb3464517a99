void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(CS10);
  ICR1 = 320;
}
void loop() { OCR1A = map(analogRead(A0), 0, 1023, 0, 1023); delay(5); }
//=                   ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ finding duty-past-top "D9 counts to TOP 320: the values 321..1023 all give one constant level, no pulse (703 of 1024)"
//= fix "Scale the duty to 0..320 in 32-bit arithmetic"
