void setup() {
  Serial.begin(9600);
  pinMode(3, OUTPUT);
  analogWrite(3, 10);
}
void loop() {
  if (Serial.available()) {
    int v = Serial.read();
    analogWrite(3, v);
  }
  Serial.println(OCR2B);
  delay(20);
}
