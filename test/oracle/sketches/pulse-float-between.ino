// Arithmetic between the edges.
float angle = 0;
volatile float shown;

void setup() {
  pinMode(8, OUTPUT);
}

void loop() {
  digitalWrite(8, HIGH);
  angle += 0.1;
  if (angle > 6.28) angle = 0;
  shown = 100 * sin(angle) / 3.3;
  digitalWrite(8, LOW);
  shown = pow(angle, 1.5) + sqrt(angle);
  delayMicroseconds(200);
}
