const int pump = 3;
void setup() {
    pinMode(pump, OUTPUT);
    TCCR2B = _BV(WGM22) | _BV(CS21) | _BV(CS20);
//= ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ finding no-top-yet "OCR2A" "D3 gives no pulse"
}
void loop() { analogWrite(pump, analogRead(A0) / 4); }
//= register TCCR2B running: 11
//= register OCR2A running: 0
