// A buffered value is overwritten by the next, which the new mode finds still waiting: the first may be at work by then.
char low;
void dim(int n) {
  pinMode(0, OUTPUT);
  OCR2A = 0;
  TCCR2A = 0;
}
void lamp(int n) {
  analogWrite(11, 1);
  dim(n);
}
void setup() {
  TCCR2B = 1;
  lamp(low % 3);
}
void loop() {}
