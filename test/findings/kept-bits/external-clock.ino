void setup() {
    TCCR1B |= _BV(CS12) | _BV(CS10);
//= ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ finding kept-bits "TCCR1B still holds CS11, left by the core's init" "counts pulses at pin PD5" "prescaler 1024"
//= fix "Clear CS1 before setting it"
}
void loop() { analogWrite(9, 60); }
