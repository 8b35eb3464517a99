// wants D9 and D10: 25 kHz
void setup() {
  pinMode(9, OUTPUT); pinMode(10, OUTPUT);
}
void loop() {
  analogWrite(9, analogRead(A0) / 4);
  analogWrite(10, analogRead(A1) / 4);
}
