// A classic: assignment in a condition.
int night = 0;
void setup() {
  pinMode(9, OUTPUT);
  if (night = 1) analogWrite(9, 30);
  else analogWrite(9, 200);
}
void loop() {}
