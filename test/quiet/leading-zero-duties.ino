// Lamp brightness from serial, one byte for each pin.
void setup() {
  Serial.begin(57600);
  pinMode(5, OUTPUT);
  pinMode(6, OUTPUT);
}

void loop() {
  if (Serial.available() >= 2) {
    byte left = Serial.read();
    byte right = Serial.read();
    analogWrite(5, left);
    analogWrite(6, right);
  }
}
