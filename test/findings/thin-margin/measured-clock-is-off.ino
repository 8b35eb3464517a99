// A clock measured out of tolerance moves what was inside by the table.
// wants D3: 980 Hz within 970..990 Hz
// bench reads D3: 968.6 Hz
// bench reads D9: 484.3 Hz
void setup() {
    TCCR2B = (TCCR2B & ~(_BV(CS22) | _BV(CS21) | _BV(CS20))) | _BV(CS21) | _BV(CS20);
//= finding thin-margin "with the clock's -1.208..-1.197 % by 2 bench readings it may be 968.55 Hz"
}
void loop() { analogWrite(3, 60); analogWrite(9, 60); }
