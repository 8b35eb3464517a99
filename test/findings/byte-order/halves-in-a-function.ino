void setTop(uint16_t v) {
  ICR1L = v & 0xFF;
//= finding byte-order "ICR1L is written before ICR1H: ICR1 takes the high byte that was left in the buffer"
//= fix "Write the high byte first"
  ICR1H = v >> 8;
}
void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS10);
  setTop(640);
  OCR1A = 100;
}
void loop() {}
