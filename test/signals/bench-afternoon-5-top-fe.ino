// wants D3: 1 kHz within 980..1020 Hz
const int pump = 3;
void setup() {
    pinMode(pump, OUTPUT);
    OCR2A = 0xFE;
    TCCR2B = _BV(WGM22) | _BV(CS21) | _BV(CS20);
//= ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ finding thin-margin "984.252 Hz" "979.331 Hz" "OCR2A = 250 gives exactly 1000 Hz"
}
void loop() { analogWrite(pump, analogRead(A0) / 4); }
//= signal D3 running: low
//= signal D3 running: high
//= signal D3 running: pulse 984.252 Hz, duty 0.39..99.6 %, steps 255, top 254, prescaler 32
//= signal D3 running: high because "OCR2B equals TOP"
