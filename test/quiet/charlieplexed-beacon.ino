// Six lamps on three wires, one after the other.
const byte wires[3] = {4, 7, 8};
const byte lamps[6][2] = {{0, 1}, {1, 0}, {1, 2}, {2, 1}, {0, 2}, {2, 0}};

void light(byte n) {
  for (byte i = 0; i < 3; i++) pinMode(wires[i], INPUT);
  byte high = wires[lamps[n][0]];
  byte low = wires[lamps[n][1]];
  pinMode(high, OUTPUT);
  digitalWrite(high, HIGH);
  pinMode(low, OUTPUT);
  digitalWrite(low, LOW);
}

void setup() {}

void loop() {
  static byte n;
  light(n);
  n = (n + 1) % 6;
  delay(100);
}
