// tone() with its timer in another mode goes on, slower.
void setup() {
  tone(3, 1801, 14);
  TCCR2A = 0;
}
void loop() {}
