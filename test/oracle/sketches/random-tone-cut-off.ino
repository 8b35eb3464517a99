// The timer that plays a tone is stopped by hand: the pin stays where the routine left it.
void setup() {
  tone(3, 1801);
  delay(2);
  TCCR2B = 0;
}
void loop() {}
