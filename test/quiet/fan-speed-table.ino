const uint8_t speeds[] = {0, 64, 128, 192, 255};
byte index = 0;
void setup() {
  pinMode(5, OUTPUT);
  pinMode(2, INPUT_PULLUP);
}
void loop() {
  if (digitalRead(2) == LOW) {
    index = (index + 1) % 5;
    analogWrite(5, speeds[index]);
    delay(250);
  }
}
