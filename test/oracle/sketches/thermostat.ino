float setpoint = 24.5;
void setup() { pinMode(10, OUTPUT); }
void loop() {
  float t = analogRead(A0) * 0.1;
  float error = setpoint - t;
  int out = (int)(error * 12.0);
  if (out < 0) out = 0;
  if (out > 255) out = 255;
  analogWrite(10, out);
  delay(12);
}
