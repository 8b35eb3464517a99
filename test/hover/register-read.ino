uint8_t old;
void setup() {
    old = TCCR2B;
//=       ^^^^^^ hover "TCCR2B**: 8-bit register of timer 2" "running: 0b00000011 (3)" "`CS22` `CS21` `CS20`"
    TCCR2B = _BV(CS21) | _BV(CS20);
}
void loop() { analogWrite(3, 60); }
