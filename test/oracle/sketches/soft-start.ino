// The pump starts gently, then stays.
void setup() {
  pinMode(10, OUTPUT);
  TCCR1B = TCCR1B & 0xF8 | 0x02;
  for (int duty = 0; duty <= 150; duty += 10) {
    analogWrite(10, duty);
    delay(5);
  }
}
void loop() {}
