// Wants are written with a small letter. The pump wants oil.
// bench reading follows tomorrow
void setup() {}
void loop() { analogWrite(9, 60); }
