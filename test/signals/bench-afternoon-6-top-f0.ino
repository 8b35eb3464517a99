// wants D3: 1 kHz within 980..1020 Hz
const int pump = 3;
void setup() {
    pinMode(pump, OUTPUT);
    TCCR2B = _BV(WGM22) | _BV(CS21) | _BV(CS20);
    OCR2A = 0xF0;
//= ^^^^^^^^^^^^ finding off-frequency "1041.67 Hz" "OCR2A = 250 gives exactly 1000 Hz"
}
void loop() { analogWrite(pump, map(analogRead(A0), 0, 1023, 0, 240)); }
//= signal D3 running: low
//= signal D3 running: high because "OCR2B equals TOP"
//= signal D3 running: pulse 1041.667 Hz, duty 0.42..99.6 %, steps 241, top 240, prescaler 32
