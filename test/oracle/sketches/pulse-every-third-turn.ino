// On in every third turn.
byte turn = 0;

void setup() {
  pinMode(12, OUTPUT);
}

void loop() {
  turn++;
  if (turn == 3) turn = 0;
  digitalWrite(12, turn == 0);
  delay(4);
}
