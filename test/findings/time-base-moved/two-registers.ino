void setup() {
  pinMode(6, OUTPUT);
  TCCR0A = _BV(COM0A1) | _BV(WGM00);   // phase correct
  TCCR0B = (TCCR0B & 0xF8) | 2;
//= finding time-base-moved "Timer 0 is the core's clock, and this changes it: delay ends almost at once, millis() runs 4.02 times too fast"
//= fix "Leave timer 0 as the core set it"
//=                          ^ finding bare-number "0x02 sets CS01 of TCCR0B (prescaler 8)"
  OCR0A = 100;
}
void loop() { digitalWrite(4, HIGH); delay(10); digitalWrite(4, LOW); delay(10); }
