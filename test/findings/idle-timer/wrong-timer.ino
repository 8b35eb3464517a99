void setup() {
    TCCR2B = _BV(CS20);
//= ^^^^^^^^^^^^^^^^^^ finding idle-timer "Timer 2 is set up here"
}
void loop() { analogWrite(9, 60); }
