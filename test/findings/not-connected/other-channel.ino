void setup() {
  pinMode(10, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS10);
  ICR1 = 639;
  OCR1B = 320;
//= finding not-connected "OCR1B is written, but COM1B1:0 is 0, so D10 stays plain port I/O and shows no pulse"
//= fix "Connect D10: set COM1B1"
}
void loop() {}
