void setup() { pinMode(9, OUTPUT); TCCR1A = _BV(COM1A1) | _BV(WGM11); TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS10); ICR1 = 1000000L / 25; OCR1A = 4; }
void loop() {}
