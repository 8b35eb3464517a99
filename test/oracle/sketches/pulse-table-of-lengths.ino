// Lengths from a table.
const unsigned int LENGTHS[] = {2, 5, 9, 5};

void setup() {
  pinMode(8, OUTPUT);
}

void loop() {
  for (byte i = 0; i < 4; i++) {
    digitalWrite(8, HIGH);
    delay(LENGTHS[i]);
    digitalWrite(8, LOW);
    delay(4);
  }
}
