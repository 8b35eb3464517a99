void setup() {
    PRR = _BV(PRTIM1);
//= ^^^^^^^^^^^^^^^^^ finding timer-off "Timer 1 is switched off (PRTIM1), so D9"
}
void loop() { analogWrite(9, 60); }
