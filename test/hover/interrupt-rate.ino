ISR(TIMER1_COMPA_vect) {}
void setup() {
    TCCR1A = 0;
    TCCR1B = _BV(WGM12) | _BV(CS12) | _BV(CS10);
//= ^^^^^^ hover "interrupt TIMER1_COMPA: 1 Hz" "timer 1: CTC, TOP OCR1A"
    OCR1A = 15624;
//= ^^^^^ hover "interrupt TIMER1_COMPA: 1 Hz" "`OCR1A`: 0 → 15624"
//= hint "≈ 1.000 Hz  interrupt"
    TIMSK1 = _BV(OCIE1A);
//=              ^^^^^^ hover "bit 1 of `TIMSK1`"
}
void loop() {}
