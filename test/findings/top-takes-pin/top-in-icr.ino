void setup() {
  pinMode(9, OUTPUT);
  pinMode(10, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(COM1B1) | _BV(WGM11) | _BV(WGM10);
  TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS11);
  OCR1A = 1000;
  OCR1B = 300;
}
void loop() {
  OCR1A = analogRead(A0) + 1;
//= finding top-takes-pin "OCR1A is TOP of timer 1, so this value sets the period of all its pins and D9 stays at a constant level (1 giv"
//= fix "Set TOP in ICR1"
  delay(20);
}
