// Two timers miss by the same factor: one cause explains both, and that is the clock.
// bench reads D3: 245 Hz
//=^^^^^^^^^^^^^^^^^^^^^^ finding reading-disagrees "the CPU's clock divided by 4 (CLKPR) would give 245.098 Hz"
// bench reads D9: 122.5 Hz
//=^^^^^^^^^^^^^^^^^^^^^^^^ finding reading-disagrees "the CPU's clock divided by 4 (CLKPR) would give 122.549 Hz"
void setup() {
    TCCR2B = (TCCR2B & ~(_BV(CS22) | _BV(CS21) | _BV(CS20))) | _BV(CS21) | _BV(CS20);
}
void loop() { analogWrite(3, 77); analogWrite(9, 120); }
