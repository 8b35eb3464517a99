// bench reads D3 with OCR2A = 255: 981 Hz
//=  ^^^^^ hover "D3: fits" "980.392 Hz is predicted: a clock error of +0.01..+0.12 %"
// bench reads D3 with OCR2A = 0xFE: 985 Hz
// bench reads D3: 1.00 kHz
//=  ^^^^^ hover "D3: does not fit" "1008.06 Hz is predicted" "1. OCR2A = 250 in place of 248 (one bit: bit 1 set as well) would give 1000 Hz"
//= finding reading-disagrees
// bench reads D9: 490 Hz
//=  ^^^^^ hover "D9: not known whether it fits" "the sketch does not drive this pin"
// bench reads D3 with OCR1A = 5: 490 Hz
//=  ^^^^^ hover "D3: not known whether it fits" "OCR1A does not belong to timer 2, which makes this pin's pulses"
void setup() {
    OCR2A = 0xF8;
    TCCR2B = _BV(WGM22) | _BV(CS21) | _BV(CS20);
}
void loop() { analogWrite(3, 60); }
