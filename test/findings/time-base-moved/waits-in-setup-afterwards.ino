void setup() {
    TCCR0B = (TCCR0B & ~(_BV(CS02) | _BV(CS01) | _BV(CS00))) | _BV(CS02);
//= ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ finding time-base-moved "delay(1000) lasts 4 s" "4 times too slow"
    delay(500);
}
void loop() { analogWrite(6, analogRead(A0) / 4); }
