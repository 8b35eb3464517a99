void setup() {
  pinMode(3, OUTPUT);
  TCCR2B &= ~(0 << CS22);
//= finding no-effect "The complement of 0 is all ones, so this clears nothing: CS22 of TCCR2B stays as before"
//= fix "Clear the bits: &= ~"
}
void loop() { analogWrite(3, 60); }
