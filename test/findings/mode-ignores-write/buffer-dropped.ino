void setup() {
    pinMode(6, OUTPUT);
    OCR0A = 99;
//= ^^^^^^^^^^ finding mode-ignores-write "OCR0A = 99 is still in its buffer when the mode changes, and is lost: OCR0A stays 0"
    TCCR0A = _BV(COM0A0) | _BV(WGM01);
}
void loop() {}
