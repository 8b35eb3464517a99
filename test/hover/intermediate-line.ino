void setup() {
    pinMode(9, OUTPUT);
    TCCR1B = 0;
//= ^^^^^^ hover "prescaler 64" "0 (stopped)" "no time passes before a later line changes it"
    TCCR1A = _BV(COM1A1) | _BV(WGM11);
//= ^^^^^^ hover "D9: 25 kHz, duty 50 % (2.5 V), 321 steps" "`COM1A` 00 → 10 · `WGM1` 01 → 10" "connects D9"
    TCCR1B = _BV(WGM13) | _BV(CS10);
    ICR1 = 320;
    OCR1A = 160;
//= ^^^^^ hover "`OCR1A`: 0 → 160"
}
void loop() {}
