void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(CS10);
  ICR1 = 1000; // 25 kHz
//=            ^^^^^^^^^ finding comment-disagrees "The comment says 25 kHz, but timer 1 gives 8000 Hz here"
//= fix "Write 320: 25 kHz"
  OCR1A = 300;
  pinMode(3, OUTPUT);
  // set prescaler to 64
  TCCR2B = TCCR2B & 0b11111000 | 0x03;
//= finding comment-disagrees "The comment says prescaler 64, but this gives prescaler 32"
//=                              ^^^^ finding bare-number "0x03 sets CS21 and CS20 of TCCR2B (prescaler 32)"
}
void loop() {analogWrite(3, 8);}
