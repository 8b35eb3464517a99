// Drip irrigation: a membrane pump that likes slow pulses.
// wants D5: 61 Hz +-2 %

const int pump = 5;
const int level = A2;

void setup() {
  pinMode(pump, OUTPUT);
  TCCR0B = (TCCR0B & 0b11111000) | 0b00000101;
}

void loop() {
  if (analogRead(level) < 400) {
    analogWrite(pump, 180);
    delay(30000);
  }
  analogWrite(pump, 0);
  delay(1000);
}
