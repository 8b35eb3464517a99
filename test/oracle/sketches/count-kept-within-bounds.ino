// Counters that buttons move stay between what they are compared with.
int v = 20;
int w = 20;
byte step = 5;
void setup() { pinMode(3, OUTPUT); pinMode(11, OUTPUT); }
void loop() {
  if (digitalRead(2) == LOW && v < 200) v++;
  if (digitalRead(4) == LOW && v > 10) v--;
  if (!digitalRead(7)) w += step;
  if (!digitalRead(8)) w -= step;
  w = constrain(w, 15, 235);
  analogWrite(3, v);
  analogWrite(11, w);
  delay(10);
}
