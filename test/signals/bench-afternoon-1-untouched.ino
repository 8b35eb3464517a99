// Circulation pump of the greenhouse bench: pin 3 drives it, a knob on A0 sets the speed.
const int pump = 3;
void setup() { pinMode(pump, OUTPUT); }
void loop() {
    int speed = analogRead(A0) / 4;
    analogWrite(pump, speed);
    analogWrite(5, speed);
    analogWrite(6, speed);
}
//= signal D3 running: low
//= signal D3 running: high
//= signal D3 running: pulse 490.196 Hz, duty 0.39..99.61 %, steps 256
//= signal D5 running: low
//= signal D5 running: high
//= signal D5 running: pulse 976.5625 Hz, duty 0.78..99.61 %, steps 256
//= signal D6 running: low
//= signal D6 running: high
//= signal D6 running: pulse 976.5625 Hz, duty 0.78..99.61 %, steps 256
//= register TCCR2A running: 1 or 33
//= register TCCR2B running: 4
