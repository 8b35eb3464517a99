int duty = 5;
void setup() {
  pinMode(9, OUTPUT);
  analogWrite(9, duty - 10);
  OCR1B = -1;
}
void loop() {}
