void setup() {
    TCCR1A = _BV(COM1A1) | _BV(WGM11);
//= ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ finding not-an-output "Timer 1 drives OC1A, but D9 is an input"
//= fix "Make D9 an output"
    TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS10);
    ICR1 = 400;
    OCR1A = 200;
}
void loop() {}
