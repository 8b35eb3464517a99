// wants D3: 1 kHz within 980..1020 Hz
const int pump = 3;
void setup() {
    pinMode(pump, OUTPUT);
    TCCR2B = (TCCR2B & ~7) | 3;
//= ^^^^^^^^^^^^^^^^^^^^^^^^^^ finding thin-margin "980.392 Hz" "980..1020 Hz" "0.5 %" "975.49 Hz"
//=                          ^ finding bare-number "CS21 and CS20"
}
void loop() { analogWrite(pump, analogRead(A0) / 4); }
//= signal D3 running: low
//= signal D3 running: high
//= signal D3 running: pulse 980.392 Hz, duty 0.39..99.61 %, steps 256, prescaler 32
//= register TCCR2B running: 3
