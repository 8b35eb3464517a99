// wants D9: 4 kHz +-3 %
void setup() {
    TCCR1B = (TCCR1B & ~(_BV(CS12) | _BV(CS11) | _BV(CS10))) | _BV(CS10);
//= ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ finding off-frequency "D9 puts out 31.3725 kHz" "Prescaler 8 gives 3921.57 Hz"
}
void loop() { analogWrite(9, 60); }
