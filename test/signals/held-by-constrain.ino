// A value held by constrain is held: the argument is pure, so each of its evaluations gives the same.
void setup() {}
void loop() {
    int t = analogRead(A0);
    analogWrite(5, constrain(t / 4, 20, 100));
    analogWrite(9, constrain(t, 20, 100));
}
//= signal D5 running: pulse 976.5625 Hz, duty 8.2..39.5 %
//= signal D9 running: pulse 490.196 Hz, duty 7.84..39.2 %
