void setup() {
    pinMode(9, OUTPUT);
    TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS10);
//= ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ finding half-a-mode "WGM13..0 are 1101" "for fast PWM with TOP OCR1A"
}
void loop() { analogWrite(9, 60); }
