void setup() {
    pinMode(3, OUTPUT);
    TCCR2A = _BV(COM2B1) | _BV(WGM20);
    TCCR2B = _BV(WGM22) | _BV(CS22);
    OCR2A = 124;
    OCR2B = 200;
//=         ^^^ finding duty-past-top "TOP 124" "200"
//= fix "Write 97: the same share of TOP 124"
}
void loop() {}
