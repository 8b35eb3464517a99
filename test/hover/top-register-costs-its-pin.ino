void setup() {
    TCCR2B = _BV(WGM22) | _BV(CS21) | _BV(CS20);
//= ^^^^^^ hover "D3: 1008.06 Hz" "16 MHz / (2 · 32 · 248)" "D11 has no duty of its own: OCR2A is TOP now, and a duty of 100 there would give D3 2500 Hz"
//=              ^^^^^ hover "bit 3 of `TCCR2B`" "waveform mode of timer 2"
//=                           ^^^^ hover "clock select of timer 2" "3 /32"
    OCR2A = 0xF8;
}
void loop() { analogWrite(3, 60); }
