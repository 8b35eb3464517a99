void setup() {
  pinMode(3, OUTPUT);
  TCCR2B |= ~(1 << CS22);
//= finding no-top-yet "Timer 2 takes TOP from OCR2A, which is still 0 here: D3 gives no pulse"
//= finding odd-operator "|= with ~ sets every other bit of TCCR2B: 0x04 → 0x0F"
//= fix "Clear the bit: &= ~"
//= finding kept-bits "TCCR2B still holds CS22, left by the core's init, so this gives prescaler 1024 and not prescaler 32"
}
void loop() { analogWrite(3, 60); }
