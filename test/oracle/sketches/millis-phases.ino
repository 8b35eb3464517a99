void setup() { pinMode(9, OUTPUT); }
void loop() {
  unsigned long t = millis() % 60;
  if (t < 20) analogWrite(9, 20);
  else if (t < 40) analogWrite(9, 120);
  else analogWrite(9, 240);
}
