// shiftOut clocks eight pulses; the latch gives one.
void setup() {
  pinMode(7, OUTPUT);
  pinMode(4, OUTPUT);
  pinMode(8, OUTPUT);
}

byte pattern = 1;

void loop() {
  digitalWrite(8, LOW);
  shiftOut(7, 4, MSBFIRST, pattern);
  digitalWrite(8, HIGH);
  pattern = pattern << 1 | pattern >> 7;
  delay(5);
}
