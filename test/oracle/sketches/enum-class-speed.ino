enum class Speed : uint8_t { Off = 0, Low = 4, Mid = 3, High = 1 };
void run(Speed s) { TCCR1B = (TCCR1B & 0xF8) | static_cast<uint8_t>(s); }
void setup() {
  analogWrite(9, 100);
  run(Speed::Mid);
  delay(20);
  run(Speed::High);
}
void loop() {}
