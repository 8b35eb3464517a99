// A conversion between the edges.
void setup() {
  pinMode(6, OUTPUT);
}

int level;

void loop() {
  digitalWrite(6, HIGH);
  level = analogRead(A0);
  digitalWrite(6, LOW);
  delayMicroseconds(100);
}
