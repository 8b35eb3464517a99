// A switch whose body is one labelled statement, or a loop with labels inside.
byte level = 0;

void choose(byte x) {
  switch (x) case 3: analogWrite(3, 50);
  switch (x)
  case 1:
  case 2: if (x == 1) analogWrite(11, 20); else analogWrite(11, 90);
}

byte pick(char c) {
  switch (c) default: return 10;
}

void setup() {
  analogWrite(3, 200);
  analogWrite(11, 200);
  choose(2);
  level = pick(':');
  switch (level) case 10: switch (level + 1) case 11: analogWrite(9, 77);
  switch (level) case 11: analogWrite(10, 70);
}

void loop() { delay(5); }
