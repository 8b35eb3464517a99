void setup() {
    OCR2A = 199;
    TCCR2A = _BV(WGM21) | _BV(WGM20);
    TCCR2B = _BV(WGM22) | _BV(CS21);
}
void loop() {
    analogWrite(3, 50);
    delay(10);
    analogWrite(11, 99);
//= ^^^^^^^^^^^^^^^^^^^ finding top-takes-pin "OCR2A is TOP of timer 2 here, so this duty for D11 sets the frequency of D3 (99 gives 20 kHz)"
//= fix "Take the mode with TOP 255: 7812.5 Hz"
    delay(10);
}
