byte duty = 10;
void setup() {
  pinMode(9, OUTPUT);
  duty -= 20;
  analogWrite(9, duty);
}
void loop() {}
