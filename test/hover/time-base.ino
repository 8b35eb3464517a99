void setup() {
    TCCR0B = (TCCR0B & ~(_BV(CS02) | _BV(CS01) | _BV(CS00))) | _BV(CS00);
//= ^^^^^^ hover "D6: 62.5 kHz" "delay(1000) lasts 15.63 ms, millis() and micros() run 64 times too fast"
//= ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ finding time-base-moved "delay(1000) lasts 15.63 ms" "64 times too fast"
}
void loop() {
    analogWrite(6, 60);
    delay(1000);
//= ^^^^^ hover "delay(1000) lasts 15.63 ms"
}
