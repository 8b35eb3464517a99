// The core calls serialEvent after a turn in which something has come in, which may be any turn or none.
uint8_t level = 40;
void setup() {
  Serial.begin(9600);
  analogWrite(6, level);
}
void loop() { delay(5); }
void serialEvent() {
  if (Serial.read() == 'h') level = 200;
  analogWrite(6, level);
}
//= signal D6 running: pulse 976.563 Hz, duty 16..78.5 %
