void setup() {
  pinMode(9, OUTPUT);
  TCCR1A |= _BV(WGM11);
  TCCR1A |= _BV(COM1A1);
}
void loop() { analogWrite(9, analogRead(A0)); }
//=                          ^^^^^^^^^^^^^^ finding duty-past-top "D9 counts to TOP 1023: analogWrite takes 255 for fully on, so the duty jumps from 24.8 % to 100 % there and ba"
//= fix "Write OCR1A itself"
