ISR(TIMER1_COMPA_vect) {}
void setup() {
    OCR1A = 249;
    TCCR1B |= _BV(WGM12);
//= ^^^^^^^^^^^^^^^^^^^^ finding half-a-mode "fast PWM with TOP 255, not in CTC with TOP OCR1A" "WGM10 set in TCCR1A"
    TIMSK1 |= _BV(OCIE1A);
}
void loop() {}
