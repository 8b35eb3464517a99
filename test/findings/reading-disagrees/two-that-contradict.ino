// Each is inside the board's tolerance, both together are not: which is wrong cannot be told, so nothing is said against either.
// bench reads D3: 981 Hz
// bench reads D9: 488.5 Hz
void setup() {
    TCCR2B = (TCCR2B & ~(_BV(CS22) | _BV(CS21) | _BV(CS20))) | _BV(CS21) | _BV(CS20);
}
void loop() { analogWrite(3, 60); analogWrite(9, 60); }
