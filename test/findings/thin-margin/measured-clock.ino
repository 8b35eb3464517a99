// The same want is thin over the board's ±0.5 %: the readings know this board's clock better.
// wants D3: 980 Hz within 979..984 Hz
// bench reads D3: 981 Hz
// bench reads D3 with TCCR2B = 4: 490.5 Hz
void setup() {
    TCCR2B = (TCCR2B & ~(_BV(CS22) | _BV(CS21) | _BV(CS20))) | _BV(CS21) | _BV(CS20);
}
void loop() { analogWrite(3, 60); }
