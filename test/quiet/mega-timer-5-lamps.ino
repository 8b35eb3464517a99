// for pulsewright: board mega
const byte lamps[] = {44, 45, 46};

void setup() {
  for (byte i = 0; i < sizeof(lamps); i++) pinMode(lamps[i], OUTPUT);
  TCCR5B = (TCCR5B & 0b11111000) | 0x02;
}

void loop() {
  for (byte i = 0; i < sizeof(lamps); i++) {
    for (int v = 0; v <= 255; v += 5) {
      analogWrite(lamps[i], v);
      delay(10);
    }
    analogWrite(lamps[i], 0);
  }
}
