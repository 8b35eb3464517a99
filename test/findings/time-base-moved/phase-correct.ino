void setup() {
    TCCR0A = _BV(WGM00);
//= ^^^^^^^^^^^^^^^^^^^ finding time-base-moved "delay ends almost at once" "millis() runs 1.99 times too slow"
}
void loop() {
    analogWrite(6, 60);
    delay(100);
}
