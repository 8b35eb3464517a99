// The reading was taken before the fix: that it no longer fits is no fault of the fix.
// bench reads D3: 250.1 kHz
//= finding reading-disagrees "fast PWM, TOP OCR2A in place of phase correct"
void setup() {
  pinMode(3, OUTPUT);
  TCCR2A = (1 << COM2B1) | (1 << WGM20);
  TCCR2B = (1 << WGM22) | (1 << CS20);
  OCR2A = 63;
}
void loop() { OCR2B = map(analogRead(A0), 0, 1023, 0, 63); }
