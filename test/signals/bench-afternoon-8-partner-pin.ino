const int pump = 3;
const int lamp = 11;
void setup() {
    pinMode(pump, OUTPUT);
    TCCR2B = _BV(WGM22) | _BV(CS21) | _BV(CS20);
    OCR2A = 0xF8;
}
void loop() {
    analogWrite(pump, 60);
    delay(1000);
    analogWrite(lamp, 100);
//= ^^^^^^^^^^^^^^^^^^^^^^ finding top-takes-pin "OCR2A is TOP" "D3" "100 gives 2500 Hz"
    delay(1000);
}
//= signal D3 setup: pulse 1008.065 Hz, top 248    within
//= signal D3 running: pulse 2500 Hz, top 100, steps 101
