void setup() { pinMode(9, OUTPUT); TCCR1A = _BV(COM1A1) | _BV(WGM11); TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS10); ICR1 = 10 ^ 6 / 25; OCR1A = 4; }
//=                                                                                                                        ^^^^^^^^^^^ finding odd-operator "10 ^ 6 is the exclusive or of what stands on its two sides, 10, not a power"
//= fix "Write 1000000L"
void loop() {}
