// A soil heater held at a set point; the output is clamped before it goes to the pin.
const int heater = 5;
float integral;

void setup() { pinMode(heater, OUTPUT); }

void loop() {
  float error = 512 - analogRead(A0);
  integral = constrain(integral + error * 0.01, -100.0, 100.0);
  float out = error * 0.8 + integral;
  if (out > 255) out = 255;
  if (out < 0) out = 0;
  analogWrite(heater, (int)out);
  delay(100);
}
