// A small machine with three states.
byte state = 0;

void setup() {
  pinMode(4, OUTPUT);
}

void loop() {
  switch (state) {
    case 0:
      digitalWrite(4, HIGH);
      delay(5);
      state = 1;
      break;
    case 1:
      delay(3);
      state = 2;
      break;
    default:
      digitalWrite(4, LOW);
      delay(8);
      state = 0;
  }
}
