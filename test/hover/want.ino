// wants D3: 1 kHz within 980..1020 Hz
//=  ^^^^^ hover "D3: met" "1008.06 Hz" "`OCR2A = 250` gives exactly 1000 Hz"
void setup() {
    OCR2A = 0xF8;
    TCCR2B = _BV(WGM22) | _BV(CS21) | _BV(CS20);
}
void loop() { analogWrite(3, 60); }
