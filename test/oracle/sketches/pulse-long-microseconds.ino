// delayMicroseconds beyond what it can do: 20000 comes out as 3616.
void setup() {
  pinMode(7, OUTPUT);
}

void loop() {
  digitalWrite(7, HIGH);
  delayMicroseconds(20000);
  digitalWrite(7, LOW);
  delayMicroseconds(1000);
}
