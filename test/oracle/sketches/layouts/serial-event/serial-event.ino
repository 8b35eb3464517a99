// serialEvent is called between turns of loop when something has come in.
uint8_t level = 40;
void setup() {
  Serial.begin(9600);
  analogWrite(6, level);
}
void loop() { delay(5); }
void serialEvent() {
  while (Serial.available()) {
    if (Serial.read() == 'h') level = 200;
    analogWrite(6, level);
  }
}
