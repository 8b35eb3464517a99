const unsigned int steps = 400;
void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(CS10);
  ICR1 = steps;
}
void loop() { analogWrite(9, map(analogRead(A0), 0, 1023, 0, 255)); delay(10); }
//=                          ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ finding duty-past-top "D9 counts to TOP 400: analogWrite takes 255 for fully on, so the duty jumps from 63.5 % to 100 % there"
//= fix "Write OCR1A itself"
