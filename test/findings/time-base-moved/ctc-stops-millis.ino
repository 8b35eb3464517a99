void setup() {
    pinMode(6, OUTPUT);
    TCCR0A = _BV(COM0A0) | _BV(WGM01);
//= ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ finding time-base-moved "millis() stands still"
    OCR0A = 99;
}
void loop() {
    if (millis() > 1000) digitalWrite(4, HIGH);
}
