const float setpoint = 24.5;
float read() { return analogRead(A1) * 0.48828; }
void setup() { pinMode(3, OUTPUT); }
void loop() {
  float error = setpoint - read();
  int power = constrain((int)(error * 40), 0, 255);
  analogWrite(3, power);
  delay(500);
}
