void setup() {
    pinMode(3, OUTPUT);
    TCCR2B = (TCCR2B & ~(_BV(CS22) | _BV(CS21) | _BV(CS20))) | _BV(CS21) | _BV(CS20);
//= ^^^^^ hover "D3: 980.392 Hz" "16 MHz / (2 · 32 · 255)" "0b00000100 (4) → 0b00000011 (3)" "prescaler 64" "prescaler 32"
}
void loop() { analogWrite(3, 60); }
//=           ^^^^^^^^^^^ hover "D3: 980.392 Hz, duty 23.5 % (1.18 V), 256 steps" "OC2B of timer 2"
