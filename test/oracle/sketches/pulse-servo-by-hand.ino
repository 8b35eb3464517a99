// A vent flap's servo, bit by bit: 1.5 ms every 20 ms.
const byte FLAP = 8;

void setup() {
  pinMode(FLAP, OUTPUT);
}

void loop() {
  digitalWrite(FLAP, HIGH);
  delayMicroseconds(1500);
  digitalWrite(FLAP, LOW);
  delayMicroseconds(8500);
  delay(10);
}
