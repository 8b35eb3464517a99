// wants D3: 1 kHz within 980..1020 Hz
const int pump = 3;
void setup() {
    pinMode(pump, OUTPUT);
    TCCR2B = TCCR2B | 3 & 0xFB;
//=          ^^^^^^^^^^^^^^^^^ finding and-before-or "0x07 (prescaler 1024)" "0x03 (prescaler 32)"
//= ^^^^^^^^^^^^^^^^^^^^^^^^^^ finding off-frequency "30.6373 Hz" "980..1020 Hz"
}
void loop() { analogWrite(pump, analogRead(A0) / 4); }
//= signal D3 running: low
//= signal D3 running: high
//= signal D3 running: pulse 30.637 Hz, duty 0.39..99.61 %, steps 256, prescaler 1024
//= register TCCR2B running: 7
