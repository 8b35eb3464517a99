// wants D3: 1 kHz within 980..1020 Hz
const int pump = 3;
void setup() {
    pinMode(pump, OUTPUT);
    TCCR2B = _BV(WGM22) | _BV(CS21) | _BV(CS20);
    OCR2A = 0xF8;
}
void loop() { analogWrite(pump, analogRead(A0) / 4); }
//=                             ^^^^^^^^^^^^^^^^^^ finding duty-past-top "TOP 248" "249..254"
//= signal D3 running: low
//= signal D3 running: high
//= signal D3 running: pulse 1008.065 Hz, duty 0.40..99.6 %, steps 249, top 248, prescaler 32
//= signal D3 running: high because "OCR2B equals TOP"
//= signal D3 running: constant because "OCR2B is above TOP (OCR2A) and never matches"
