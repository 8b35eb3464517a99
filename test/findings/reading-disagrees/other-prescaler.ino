// bench reads D3: 30.6 Hz
//= finding reading-disagrees "prescaler 1024"
void setup() {}
void loop() { analogWrite(3, 60); }
