void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS11);  // 25 kHz
//=                                              ^^^^^^^^^ finding comment-disagrees "The comment says 25 kHz, but timer 1 gives 3125 Hz here"
//= fix "Write 3125 Hz in the comment"
  ICR1 = 639;
  OCR1A = 300;
}
void loop() {}
