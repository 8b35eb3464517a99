void setup() {
    TCCR2B = _BV(WGM22) | _BV(CS21);
//= ^^^^^^ hover "D3: constantly high or low (TOP (OCR2A) is 0: the counter does not move, there is no pulse)"
//= ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ finding no-top-yet
}
void loop() { analogWrite(3, 60); }
