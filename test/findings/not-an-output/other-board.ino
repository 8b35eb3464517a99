// for pulsewright: board mega
// code for the uno: pin 9, timer 1
void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(WGM11);
//= finding not-an-output "Timer 1 drives OC1A, but D11 is an input, so nothing comes out"
//= fix "Make D11 an output"
  TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS10);
  ICR1 = 639;
  OCR1A = 320;
}
void loop() {}
